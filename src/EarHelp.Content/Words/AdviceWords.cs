using System.Collections.Frozen;
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
    static readonly string[] Kinds = [WordPages.Outcomes, WordPages.Warnings, WordPages.Explanations, WordPages.Reasons, WordPages.Answers];
    static readonly char[] SentenceEnds = ['.', '!', '?', ':', ';'];

    readonly FrozenDictionary<string, Regex?> _words;
    readonly FrozenDictionary<string, Regex?> _verbs;

    AdviceWords(List<(string Word, bool IsVerb, ImmutableArray<string> Kinds)> words)
    {
        // Whole words; a digit may stand close before ("5mg"). One expression a kind of text: there are many words and many lines.
        Regex? All(string kind, bool areVerbs, string before)
        {
            var meant = words.Where(w => w.IsVerb == areVerbs && w.Kinds.Contains(kind)).Select(w => w.Word).OrderByDescending(w => w.Length)
                .Select(w => string.Join(@"\s+", w.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(Regex.Escape))).ToList();
            return meant.Count == 0 ? null : new Regex($@"{before}(?<word>{string.Join('|', meant)})(?![\p{{L}}-])", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant);
        }

        _words = Kinds.ToFrozenDictionary(k => k, k => All(k, false, @"(?<![\p{L}-])"), StringComparer.Ordinal);
        _verbs = Kinds.ToFrozenDictionary(k => k, k => All(k, true, @"^\W*"), StringComparer.Ordinal);
    }

    public static AdviceWords Read(IEnumerable<Page> pages, ProblemList problems)
    {
        var words = new List<(string, bool, ImmutableArray<string>)>();
        var first = new Dictionary<(string, string), SourceSpot>();
        foreach (var table in pages.SelectMany(p => p.Tables))
        {
            if (table.Kind is not ("word" or "verb"))
            {
                problems.AddUnknown(Codes.UnknownPart, table.Spot, "table of advice words with the heading", table.Kind, ["word", "verb"]);
                continue;
            }

            var columns = Columns.Of(table, [table.Kind], ["not looked for in"], problems);
            foreach (var row in table.Rows.Where(r => r.Cells[0].Text.Length > 0))
            {
                if (first.TryGetValue((table.Kind, row.Cells[0].Text), out var spot))
                    problems.Add(Codes.DoubledName, row.Spot, $"The {table.Kind} \"{row.Cells[0].Text}\" is listed twice; first at {spot}.", "Keep one of them.");
                first.TryAdd((table.Kind, row.Cells[0].Text), row.Spot);
                words.Add((row.Cells[0].Text, table.Kind == "verb", ReadKinds(columns.Cell(row, "not looked for in"), problems)));
            }
        }

        return new AdviceWords(words);
    }

    /// <param name="kind">outcomes, warnings, explanations, reasons or answers.</param>
    /// <param name="spotOf">The spot of a text inside the section, as exact as can be.</param>
    public void Report(string kind, Prose prose, Func<string, SourceSpot> spotOf, ProblemList problems)
    {
        foreach (var line in prose.Blocks.SelectMany(PlainWords.Lines))
        {
            foreach (var (start, word) in Find(kind, line).DistinctBy(f => f.Word, StringComparer.OrdinalIgnoreCase))
            {
                problems.Add(Codes.AdviceInProse, spotOf(BeforeAndIn(line, start, word)), $"\"{word}\" stands in a text that only explains: \"{Around(line, start, word.Length)}\".",
                    "Say what to do or to take only in an advice item, which has its own gate; here refer to the advice below.");
            }
        }
    }

    IEnumerable<(int Start, string Word)> Find(string kind, string line)
    {
        if (_words[kind] is { } words)
        {
            foreach (Match match in words.Matches(line))
                yield return (match.Groups["word"].Index, match.Groups["word"].Value);
        }

        if (_verbs[kind] is not { } verbs)
            yield break;
        for (var start = 0; start < line.Length;)
        {
            var end = line.IndexOfAny(SentenceEnds, start);
            end = end < 0 ? line.Length : end;
            if (verbs.Match(line[start..end]) is { Success: true } match)
                yield return (start + match.Groups["word"].Index, match.Groups["word"].Value);
            start = end + 1;
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

    // Two words before, so that the right one of several places is found.
    static string BeforeAndIn(string line, int start, string word) =>
        string.Join(' ', line[..start].Split(' ', StringSplitOptions.RemoveEmptyEntries).TakeLast(2).Append(word));

    static string Around(string line, int start, int length)
    {
        var from = Math.Max(0, start - 20);
        var to = Math.Min(line.Length, start + length + 20);
        return (from > 0 ? "… " : "") + line[from..to].Trim() + (to < line.Length ? " …" : "");
    }
}
