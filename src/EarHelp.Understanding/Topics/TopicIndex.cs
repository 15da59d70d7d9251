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
    readonly FrozenDictionary<string, Known> _known;
    readonly double _unknown;

    TopicIndex(ImmutableArray<Wording> wordings, FrozenDictionary<string, Known> known) =>
        (_wordings, _known, _unknown) = (wordings, known, Math.Log(wordings.Length + 1));

    /// <summary>A word weighs the more the fewer wordings hold it, so that "my" and "ear" decide nothing.</summary>
    public static TopicIndex Build(IEnumerable<AnswerPage> answers)
    {
        var read = answers.OrderBy(a => a.Id, StringComparer.Ordinal)
            .SelectMany(a => a.AskedAs.Select(w => (a.Id, Words: WordsOf(w))))
            .Where(w => !w.Words.IsEmpty).ToList();
        var known = read.SelectMany((w, at) => w.Words.Select(word => (Word: word, At: at)))
            .GroupBy(w => w.Word, w => w.At, StringComparer.Ordinal)
            .ToFrozenDictionary(g => g.Key, g => new Known(Math.Log((read.Count + 1) / (double)g.Count()), [.. g]), StringComparer.Ordinal);
        return new TopicIndex([.. read.Select(w => new Wording(w.Id, w.Words.Sum(word => known[word].Weight)))], known);
    }

    /// <summary>The answer's name, or null if the message asks for none.</summary>
    public string? Find(string text)
    {
        var words = WordsOf(text);
        if (words.IsEmpty || words.Length > MostWords)
            return null;
        var all = 0.0;
        var common = new double[_wordings.Length];
        foreach (var word in words)
        {
            var known = _known.GetValueOrDefault(word);
            all += known?.Weight ?? _unknown;
            foreach (var at in known?.In ?? [])
                common[at] += known!.Weight;
        }

        return MostAlike(common, all);
    }

    string? MostAlike(double[] common, double all)
    {
        var (found, best) = ((string?)null, AlikeEnough);
        for (var i = 0; i < common.Length; i++)
        {
            var alike = 2 * common[i] / (_wordings[i].Weight + all);
            if (alike > best)
                (found, best) = (_wordings[i].Answer, alike);
        }

        return found;
    }

    static ImmutableArray<string> WordsOf(string text) => [.. WordList.Of(text).Select(w => w.Text).Distinct(StringComparer.Ordinal)];

    sealed record Wording(string Answer, double Weight);

    /// <param name="In">The places of the wordings that hold the word.</param>
    sealed record Known(double Weight, ImmutableArray<int> In);
}
