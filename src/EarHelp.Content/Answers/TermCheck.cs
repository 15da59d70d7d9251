using System.Collections.Immutable;
using System.Text.RegularExpressions;
using EarHelp.Content.Problems;
using EarHelp.Content.Words;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Answers;

/// <summary>Wherever an answer uses a medical word of the glossary, its plain words stand on the same page.</summary>
sealed class TermCheck(ImmutableArray<GlossaryEntry> glossary)
{
    readonly ImmutableArray<(string Begins, Regex Term, Regex Plain, string PlainWords)> _terms =
    [
        .. glossary.SelectMany(e => e.Terms.Select(t => (t.Split(' ')[0], Whole([t]), Whole(e.PlainWords), e.PlainWords.FirstOrDefault() ?? ""))),
    ];

    /// <param name="spotOf">The spot of a text inside the section.</param>
    public void Report(AnswerPage answer, Func<string, SourceSpot> spotOf, ProblemList problems)
    {
        var words = string.Join('\n', new[] { answer.Text, answer.Next }.Select(PlainWords.Of));
        foreach (var (_, term, plain, plainWords) in _terms.Where(t => words.Contains(t.Begins, StringComparison.OrdinalIgnoreCase)))
        {
            if (term.Match(words) is { Success: true } found && !plain.IsMatch(words))
                problems.Add(Codes.TermUnexplained, spotOf(found.Value), $"\"{found.Value}\" is a medical word, and the page does not say it in plain words.", $"Write \"{plainWords}\" first, and the medical word after it if it is needed.");
        }
    }

    // A plural counts as the same word.
    static Regex Whole(IEnumerable<string> words) => new(
        $@"(?<![\p{{L}}-])(?:{string.Join('|', words.Select(w => Regex.Escape(w).Replace(@"\ ", @"\s+", StringComparison.Ordinal)))})s?(?![\p{{L}}-])",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant);
}
