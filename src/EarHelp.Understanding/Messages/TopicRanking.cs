using System.Collections.Frozen;
using System.Collections.Immutable;
using EarHelp.Triage.Editions;
using EarHelp.Understanding.Lexicons;
using EarHelp.Understanding.Words;

namespace EarHelp.Understanding.Messages;

/// <summary>Ranks the answers by how well their own words fit a question: Okapi BM25 (Robertson and others, 1994).</summary>
sealed class TopicRanking
{
    /// <summary>The usual constants of the formula.</summary>
    const double Saturation = 1.2, LengthWeight = 0.75;

    /// <summary>A title and the wordings of a page count as so many times the words below them, and a word of how people ask for it as so many.</summary>
    const int WeightOfWordings = 3, WeightOfListed = 2;

    /// <summary>A word of the same class counts so much of a word that is the same.</summary>
    const double WeightOfClass = 0.7;

    /// <summary>Words that begin with the same letters count as one.</summary>
    const int LettersCompared = 6;

    readonly ImmutableArray<(string Id, Dictionary<string, int> Terms, int Length)> _answers;
    readonly FrozenDictionary<string, double> _weights;
    readonly double _averageLength;

    readonly ILookup<string, string> _classes;

    TopicRanking(ImmutableArray<(string Id, Dictionary<string, int> Terms, int Length)> answers, ILookup<string, string> classes)
    {
        (_answers, _classes) = (answers, classes);
        _averageLength = answers.IsEmpty ? 1 : answers.Average(a => a.Length);
        _weights = answers.SelectMany(a => a.Terms.Keys).GroupBy(t => t, StringComparer.Ordinal)
            .ToFrozenDictionary(g => g.Key, g => Math.Log(1 + ((answers.Length - g.Count() + 0.5) / (g.Count() + 0.5))), StringComparer.Ordinal);
    }

    /// <param name="listed">How people ask for each answer, beside what its own page lists.</param>
    /// <param name="classes">By word: the classes of words that count as one word in a question.</param>
    public static TopicRanking Of(IEnumerable<AnswerPage> answers, ILookup<string, string> listed, ILookup<string, string> classes) =>
        new([.. answers.OrderBy(a => a.Id, StringComparer.Ordinal).Select(a => Counted(a, listed[a.Id], classes))], classes);

    /// <summary>Each answer's score, in the order of <see cref="Ids"/>.</summary>
    public double[] Scores(IEnumerable<string> words)
    {
        var terms = words.ToList();
        var own = terms.Select(Term).Distinct(StringComparer.Ordinal).ToList();
        var shared = terms.SelectMany(w => _classes[w]).Distinct(StringComparer.Ordinal).ToList();
        return [.. _answers.Select(a => own.Sum(t => Score(a.Terms, a.Length, t)) + (shared.Sum(t => Score(a.Terms, a.Length, t)) * WeightOfClass))];
    }

    /// <summary>How many different words an answer shares with a question.</summary>
    public int Shared(string id, IEnumerable<string> words)
    {
        var terms = _answers.First(a => a.Id == id).Terms;
        return words.Select(Term).Distinct(StringComparer.Ordinal).Count(terms.ContainsKey);
    }

    public IEnumerable<string> Ids => _answers.Select(a => a.Id);

    double Score(Dictionary<string, int> terms, int length, string term)
    {
        if (!terms.TryGetValue(term, out var count))
            return 0;
        return _weights[term] * count * (Saturation + 1) / (count + (Saturation * (1 - LengthWeight + (LengthWeight * length / _averageLength))));
    }

    static (string, Dictionary<string, int>, int) Counted(AnswerPage page, IEnumerable<string> listed, ILookup<string, string> classes)
    {
        var terms = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (var wording in page.AskedAs.Append(page.Title))
        {
            foreach (var word in WordList.Of(wording))
                Count(word.Text, WeightOfWordings);
        }

        foreach (var word in listed.SelectMany(p => Pattern.Rows(p)[..1]).SelectMany(r => r).Where(w => w is not [] && char.IsLetter(w[0])).Select(w => w.TrimEnd('-')).DistinctBy(Term, StringComparer.Ordinal))
            Count(word, WeightOfListed);
        foreach (var word in WordList.Of(PlainProse.Of(page.Text)))
            Count(word.Text, 1);
        return (page.Id, terms, terms.Where(t => t.Key[0] != Class).Sum(t => t.Value));

        void Count(string word, int weight)
        {
            terms[Term(word)] = terms.GetValueOrDefault(Term(word)) + weight;
            foreach (var name in classes[word])
                terms[name] = terms.GetValueOrDefault(name) + weight;
        }
    }

    /// <summary>What the name of a class begins with, so that it is no word.</summary>
    const char Class = '@';

    static string Term(string word)
    {
        var stem = word.Length > 3 && word[^1] == 's' ? word[..^1] : word;
        return stem.Length > LettersCompared ? stem[..LettersCompared] : stem;
    }
}
