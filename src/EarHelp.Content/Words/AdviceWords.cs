using System.Collections.Immutable;
using System.Text.RegularExpressions;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Words;

/// <summary>Words that belong into advice items only: agents and doses anywhere, verbs at the start of a sentence.</summary>
/// <remarks>The list stands in the words of each language (<c>words: advice words</c>).</remarks>
sealed class AdviceWords
{
    static readonly string[] Kinds = ["outcomes", "warnings", "explanations", "reasons"];

    readonly List<(Regex Pattern, string Word, ImmutableArray<string> Kinds)> _words = [];

    public static AdviceWords Read(IEnumerable<Page> pages, ProblemList problems)
    {
        var words = new AdviceWords();
        foreach (var table in pages.SelectMany(p => p.Tables))
        {
            if (table.Kind is not ("word" or "verb"))
            {
                problems.AddUnknown(Codes.UnknownPart, table.Spot, "table of advice words with the heading", table.Kind, ["word", "verb"]);
                continue;
            }

            var columns = Columns.Of(table, [table.Kind], ["not looked for in"], problems);
            foreach (var row in table.Rows.Where(r => r.Cells[0].Text.Length > 0))
                words.Add(row.Cells[0].Text, table.Kind == "verb", ReadKinds(columns.Cell(row, "not looked for in"), problems));
        }

        return words;
    }

    /// <param name="kind">outcomes, warnings, explanations or reasons.</param>
    /// <param name="spotOf">The spot of a text inside the section, as exact as can be.</param>
    public void Report(string kind, Prose prose, Func<string, SourceSpot> spotOf, ProblemList problems)
    {
        foreach (var line in prose.Blocks.SelectMany(PlainWords.Lines))
        {
            foreach (var (pattern, word, kinds) in _words.Where(w => w.Kinds.Contains(kind)))
            {
                if (pattern.Match(line) is { Success: true } match)
                {
                    problems.Add(Codes.AdviceInProse, spotOf(BeforeAndIn(line, match)), $"\"{word}\" stands in a text that only explains: \"{Around(line, match)}\".",
                        "Say what to do or to take only in an advice item, which has its own gate; here refer to the advice below.");
                }
            }
        }
    }

    static ImmutableArray<string> ReadKinds(PageCell cell, ProblemList problems)
    {
        if (cell.IsNothing)
            return [.. Kinds];
        var left = cell.SplitAt(',');
        foreach (var (text, spot) in left.Where(e => !Kinds.Contains(e.Text)))
            problems.AddUnknown(Codes.UnknownKindOfWords, spot, "kind of words", text, Kinds);
        return [.. Kinds.Where(k => left.All(e => e.Text != k))];
    }

    // Whole words; a digit may stand close before ("5mg"). A verb stands at the start, after the end of a sentence, or after a colon.
    void Add(string word, bool isVerb, ImmutableArray<string> kinds)
    {
        var words = string.Join(@"\s+", word.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(Regex.Escape));
        var before = isVerb ? @"(?<=^\W*|[.!?:;]\W*)" : @"(?<![\p{L}-])";
        _words.Add((new Regex(before + words + @"(?![\p{L}-])", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant), word, kinds));
    }

    // Two words before, so that the right one of several places is found.
    static string BeforeAndIn(string line, Match match)
    {
        var words = line[..match.Index].Split(' ', StringSplitOptions.RemoveEmptyEntries);
        return string.Join(' ', words.TakeLast(2).Append(match.Value.Trim()));
    }

    static string Around(string line, Match match)
    {
        var start = Math.Max(0, match.Index - 20);
        var end = Math.Min(line.Length, match.Index + match.Length + 20);
        return (start > 0 ? "… " : "") + line[start..end].Trim() + (end < line.Length ? " …" : "");
    }
}
