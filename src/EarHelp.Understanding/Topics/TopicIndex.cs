using System.Collections.Frozen;
using System.Collections.Immutable;
using EarHelp.Triage.Editions;
using EarHelp.Understanding.Words;

namespace EarHelp.Understanding.Topics;

/// <summary>Finds the answer that a message asks for, by the wordings in which people ask. Knows no word that is not in the edition.</summary>
public sealed class TopicIndex
{
    /// <summary>How alike a message and a wording must be: twice the weight of their common words, by the weight of both.</summary>
    const double AlikeEnough = 0.7;

    /// <summary>A longer message tells a story and asks no question; a limit of the machine, not a clinical one.</summary>
    const int MostWords = 20;

    readonly ImmutableArray<Wording> _wordings;
    readonly FrozenDictionary<string, double> _weights;
    readonly double _unknown;

    TopicIndex(ImmutableArray<Wording> wordings, FrozenDictionary<string, double> weights) =>
        (_wordings, _weights, _unknown) = (wordings, weights, Math.Log(wordings.Length + 1));

    /// <summary>A word weighs the more the fewer wordings hold it, so that "my" and "ear" decide nothing.</summary>
    public static TopicIndex Build(IEnumerable<AnswerPage> answers)
    {
        var read = answers.OrderBy(a => a.Id, StringComparer.Ordinal)
            .SelectMany(a => a.AskedAs.Select(w => (a.Id, Words: WordsOf(w))))
            .Where(w => !w.Words.IsEmpty).ToList();
        var weights = read.SelectMany(w => w.Words).GroupBy(w => w, StringComparer.Ordinal)
            .ToFrozenDictionary(g => g.Key, g => Math.Log((read.Count + 1) / (double)g.Count()), StringComparer.Ordinal);
        return new TopicIndex([.. read.Select(w => new Wording(w.Id, w.Words, w.Words.Sum(word => weights[word])))], weights);
    }

    /// <summary>The answer's name, or null if the message asks for none.</summary>
    public string? Find(string text)
    {
        var words = WordsOf(text);
        if (words.IsEmpty || words.Length > MostWords)
            return null;
        var all = words.Sum(WeightOf);
        var (found, best) = ((string?)null, AlikeEnough);
        foreach (var wording in _wordings)
        {
            var common = wording.Words.Where(words.Contains).Sum(WeightOf);
            var alike = 2 * common / (wording.Weight + all);
            if (alike > best)
                (found, best) = (wording.Answer, alike);
        }

        return found;
    }

    double WeightOf(string word) => _weights.TryGetValue(word, out var weight) ? weight : _unknown;

    static ImmutableArray<string> WordsOf(string text) => [.. WordList.Of(text).Select(w => w.Text).Distinct(StringComparer.Ordinal)];

    sealed record Wording(string Answer, ImmutableArray<string> Words, double Weight);
}
