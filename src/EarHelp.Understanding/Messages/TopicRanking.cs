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

    /// <summary>Words that begin with the same letters count as one.</summary>
    const int LettersCompared = 6;

    readonly ImmutableArray<(string Id, Dictionary<string, int> Terms, int Length)> _answers;
    readonly FrozenDictionary<string, double> _weights;
    readonly double _averageLength;

    TopicRanking(ImmutableArray<(string Id, Dictionary<string, int> Terms, int Length)> answers)
    {
        _answers = answers;
        _averageLength = answers.IsEmpty ? 1 : answers.Average(a => a.Length);
        _weights = answers.SelectMany(a => a.Terms.Keys).GroupBy(t => t, StringComparer.Ordinal)
            .ToFrozenDictionary(g => g.Key, g => Math.Log(1 + ((answers.Length - g.Count() + 0.5) / (g.Count() + 0.5))), StringComparer.Ordinal);
    }

    /// <param name="listed">How people ask for each answer, beside what its own page lists.</param>
    public static TopicRanking Of(IEnumerable<AnswerPage> answers, ILookup<string, string> listed) =>
        new([.. answers.OrderBy(a => a.Id, StringComparer.Ordinal).Select(a => Counted(a, listed[a.Id]))]);

    /// <summary>Each answer's score, in the order of <see cref="Ids"/>.</summary>
    public double[] Scores(IEnumerable<string> words)
    {
        var terms = words.Select(Term).Distinct(StringComparer.Ordinal).ToList();
        return [.. _answers.Select(a => terms.Sum(t => Score(a.Terms, a.Length, t)))];
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

    static (string, Dictionary<string, int>, int) Counted(AnswerPage page, IEnumerable<string> listed)
    {
        var terms = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (var wording in page.AskedAs.Append(page.Title))
        {
            foreach (var word in WordList.Of(wording))
                terms[Term(word.Text)] = terms.GetValueOrDefault(Term(word.Text)) + WeightOfWordings;
        }

        foreach (var word in listed.SelectMany(p => Pattern.Rows(p)[..1]).SelectMany(r => r).Where(w => w is not [] && char.IsLetter(w[0])).Select(w => Term(w.TrimEnd('-'))).Distinct(StringComparer.Ordinal))
            terms[word] = terms.GetValueOrDefault(word) + WeightOfListed;
        foreach (var word in WordList.Of(PlainProse.Of(page.Text)))
            terms[Term(word.Text)] = terms.GetValueOrDefault(Term(word.Text)) + 1;
        return (page.Id, terms, terms.Values.Sum());
    }

    static string Term(string word)
    {
        var stem = word.Length > 3 && word[^1] == 's' ? word[..^1] : word;
        return stem.Length > LettersCompared ? stem[..LettersCompared] : stem;
    }
}
