using System.Collections.Immutable;
using System.Text;
using System.Text.RegularExpressions;
using EarHelp.Content.Sources;

namespace EarHelp.Content.Tests.Editions;

/// <summary>Ways in which a file of an author gets broken: by a slip, by a word processor, by a program that saves it.</summary>
static partial class Breaks
{
    /// <summary>By name; each gives the broken text, or null where the file has nothing that can break so.</summary>
    public static ImmutableArray<(string Name, Func<string, string?> Break)> OfText { get; } =
    [
        // What a program or a word processor leaves behind.
        ("a character that cannot be seen", t => Insert(t, FirstLine(t, IsTableRow) ?? FirstLine(t, IsProse), "\u200B")),
        ("a control character", t => Insert(t, FirstLine(t, l => l.StartsWith("# ", StringComparison.Ordinal)), "\u0001")),
        ("long dashes round the settings", t => t.StartsWith("---\n", StringComparison.Ordinal) ? "\u2013\u2013\u2013" + t[3..] : null),
        ("long dashes below the headings of a table", t => Row(t, IsRule, l => l.Replace('-', '\u2013'))),
        ("curly quotes round a setting", t => Setting(t, "owner: \u201Cclinical lead\u201D")),

        // The settings.
        ("settings that do not end", t => t.StartsWith("---\n", StringComparison.Ordinal) ? t.Remove(t.IndexOf("\n---\n", 4, StringComparison.Ordinal), 4) : null),
        ("an unknown setting", t => Setting(t, "titel: The ear")),
        ("a setting twice", t => t.Contains("\ntitle:", StringComparison.Ordinal) ? Setting(t, "title: Once more") : null),
        ("an empty setting", t => Without(t, "owner") is { } rest ? Setting(rest, "owner:") : null),
        ("a setting with an open quote", t => Without(t, "owner") is { } rest ? Setting(rest, "owner: \"clinical lead") : null),
        ("a setting with two values", t => Without(t, "owner") is { } rest ? Setting(rest, "owner: [one, two]") : null),
        ("a setting without a colon", t => Setting(t, "owner clinical lead")),
        ("a date in another order", t => Without(t, "review by") is { } rest ? Setting(rest, "review by: 31/12/2026") : null),

        // Tables.
        ("a row with a cell too few", t => Row(t, IsTableRow, l => l[..(l.TrimEnd('|', ' ').LastIndexOf('|') + 1)])),
        ("a row with a cell too many", t => Row(t, IsTableRow, l => l + " more |")),
        // In the tables of questions the last cells may be empty.
        ("an empty cell", t => Row(t, IsTableRow, l => IsOf(t, "questions") ? SecondCell().Replace(l, "$1|  |") : LastCell().Replace(l, "|  |"))),
        ("a row written twice", t => Row(t, IsTableRow, l => l + "\n" + l)),
        ("a line of hyphens that is too short", t => Row(t, IsRule, l => l[..(l.TrimEnd('|').LastIndexOf('|') + 1)])),
        ("no line of hyphens", t => Row(t, IsRule, _ => null)),
        ("a column with a wrong name", t => Heading(t, l => LastCell().Replace(l, "| colour |"))),
        ("a column that stands twice", t => Heading(t, l => l + l.TrimEnd('|', ' ')[l.TrimEnd('|', ' ').LastIndexOf('|')..][1..] + " |")),
        ("a first heading with a letter too many", t => Heading(t, l => "| " + Doubled(l[1..].TrimStart()))),
        ("text that touches the table above it", t => Row(t, IsLastRow(t), l => l + "\nThis is a note.")),
        ("text that touches the table below it", t => Heading(t, l => "This is a note.\n" + l)),
        ("the marks of a merge", t => Row(t, IsTableRow, l => "<<<<<<< mine\n" + l)),
        // The names of countries, advice words and rules about treating are free.
        ("a name with a letter too many", t => IsOf(t, "advice words") || t.Contains("| country |", StringComparison.Ordinal) || t.Contains("| **clinic may treat** |", StringComparison.Ordinal) ? null : Row(t, IsTableRow, l => FirstCell().Replace(l, m => $"| {m.Groups[1].Value}x |"))),

        // Words.
        ("a tag", t => InSection(t, "<b>The</b> ear")),
        ("an unknown blank", t => InSection(t, "The {clinik} is open.")),
        ("a brace that does not close", t => InSection(t, "The {clinic is open.")),
        ("a brace that does not open", t => InSection(t, "The clinic} is open.")),
        ("a picture", t => InSection(t, "![The ear](ear.png)")),
        ("a link that is not safe", t => InSection(t, "[The ear](http://example.org/)")),
        ("a block of code", t => InSection(t, "```\nThe ear\n```")),
        ("a quotation", t => InSection(t, "> The ear")),
        ("a heading of the wrong level", t => InSection(t, "#### The ear\n\nIt is here.")),
        ("a section that stands twice", t => FirstSection(t) is { } s ? t.TrimEnd('\n') + "\n\n" + s : null),
        // The names of signposts and of answers are free, and so is what a glossary holds.
        ("a section with a wrong name", t => FirstSection(t) is not null && !IsOf(t, "signposts") && !IsOf(t, "answers") && !IsOf(t, "glossary") ? SectionName().Replace(t, "$0x", 1) : null),
        ("a section that is not there", t => FirstSection(t) is { } s && !IsOf(t, "glossary") ? t.Replace(s, string.Empty, StringComparison.Ordinal) : null),
        ("a section without text", t => FirstSection(t) is { } s && !IsOf(t, "glossary") ? t.Replace(s, s.Split('\n')[0] + "\n\n", StringComparison.Ordinal) : null),
        ("a file of another kind", t => t.Contains("\nwords:", StringComparison.Ordinal) ? Setting(Without(t, "words")!, "words: letters") : null),
        ("a file of no kind", t => t.Contains("\nwords:", StringComparison.Ordinal) ? Without(t, "words") : null),
        ("a file of another dialog", t => t.Contains("\ndialog:", StringComparison.Ordinal) ? Setting(Without(t, "dialog")!, "dialog: nose") : null),
        ("a cell that lost its beginning", t => Row(t, IsTableRow, l => l[(l.IndexOf('|', 1) + 1)..])),
        ("nothing left of the file", _ => string.Empty),
    ];

    /// <summary>The same, of the bytes.</summary>
    public static ImmutableArray<(string Name, Func<SourceFile, SourceFile?> Break)> OfFile { get; } =
    [
        ("saved in an old character set", f => f with { Bytes = (byte[])[.. f.Bytes.Span, 0xE9, 0x74, 0xE9, 0x0A] }),
        ("saved as UTF-16", f => f with { Bytes = (byte[])[0xFF, 0xFE, .. Encoding.Unicode.GetBytes(TextOf(f))] }),
        ("copied under a second name", f => f with { Path = f.Path.Replace(".md", " copy.md", StringComparison.Ordinal) }),
        ("gone", _ => null),
    ];

    public static string TextOf(SourceFile file) => Encoding.UTF8.GetString(file.Bytes.Span).ReplaceLineEndings("\n");

    static int? FirstLine(string text, Func<string, bool> isMeant)
    {
        var start = 0;
        var settingsEnd = text.StartsWith("---\n", StringComparison.Ordinal) ? text.IndexOf("\n---\n", 4, StringComparison.Ordinal) + 5 : 0;
        foreach (var line in text.Split('\n'))
        {
            if (start >= settingsEnd && isMeant(line))
                return start;
            start += line.Length + 1;
        }

        return null;
    }

    static bool IsRule(string line) => RuleLine().IsMatch(line);

    static bool IsTableRow(string line) => line.StartsWith("| ", StringComparison.Ordinal) && !BoldOrKnownHeading().IsMatch(line);

    static bool IsProse(string line) => line.Length > 0 && char.IsLetter(line[0]);

    /// <summary>The last row of the first table.</summary>
    static Func<string, bool> IsLastRow(string text)
    {
        var lines = text.Split('\n');
        var rule = Array.FindIndex(lines, IsRule);
        var last = rule < 0 ? null : lines.Skip(rule).TakeWhile(l => l.StartsWith('|')).Last();
        return line => line == last;
    }

    static string? Insert(string text, int? at, string what) => at is { } place ? text.Insert(place + 3, what) : null;

    static string? Row(string text, Func<string, bool> isMeant, Func<string, string?> change)
    {
        if (FirstLine(text, isMeant) is not { } at)
            return null;
        var end = text.IndexOf('\n', at);
        var changed = change(text[at..end]);
        return text[..at] + (changed is null ? text[(end + 1)..] : changed + text[end..]);
    }

    static string? Heading(string text, Func<string, string> change) => Row(text, BoldOrKnownHeading().IsMatch, change);

    static string? Setting(string text, string line) => text.StartsWith("---\n", StringComparison.Ordinal) ? "---\n" + line + "\n" + text[4..] : null;

    static string? Without(string text, string setting) =>
        text.StartsWith("---\n", StringComparison.Ordinal) ? Regex.Replace(text, $"(?m)^{setting}:.*\n", string.Empty) : null;

    static string? InSection(string text, string more) =>
        text.Contains("\nwords:", StringComparison.Ordinal) && FirstSection(text) is { } section && !section.Contains("\n|", StringComparison.Ordinal)
            ? text.Replace(section, section.TrimEnd('\n') + "\n\n" + more + "\n\n", StringComparison.Ordinal)
            : null;

    static bool IsOf(string text, string kind) => text.Contains($"\nwords: {kind}\n", StringComparison.Ordinal);

    static string? FirstSection(string text) =>
        text.Contains("\nwords:", StringComparison.Ordinal) && !text.Contains("\nwords: interface", StringComparison.Ordinal)
        && !text.Contains("\nwords: advice words", StringComparison.Ordinal) && !text.Contains("\nwords: reasons", StringComparison.Ordinal)
        && Section().Match(text) is { Success: true } found ? found.Value : null;

    static string Doubled(string text) => text.Insert(1, text[1..2]);

    [GeneratedRegex(@"\|[^|]*\|\s*$")]
    private static partial Regex LastCell();

    [GeneratedRegex(@"^(\|[^|]*)\|[^|]*\|")]
    private static partial Regex SecondCell();

    [GeneratedRegex(@"^\|\s*([^|]*?)\s*\|")]
    private static partial Regex FirstCell();

    [GeneratedRegex(@"^\|[\s|:-]*-[\s|:-]*$")]
    private static partial Regex RuleLine();

    [GeneratedRegex(@"^\| (level|destination|source|fact|number|any of: .*|all of: .*|rule|screen|impossible|advice|explanation|text|word|verb|country|open|closed|holiday|offered|days ago|hours ago|class|trigger|topic|signpost) \||^\| [a-z ]+ \| (option|entry|reason) \|")]
    private static partial Regex BoldOrKnownHeading();

    [GeneratedRegex(@"^## .+?(?=^## |\z)", RegexOptions.Multiline | RegexOptions.Singleline)]
    private static partial Regex Section();

    [GeneratedRegex("^## .+$", RegexOptions.Multiline)]
    private static partial Regex SectionName();
}
