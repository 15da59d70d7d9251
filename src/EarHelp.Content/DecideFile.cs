using System.Collections.Immutable;
using System.Text.RegularExpressions;
using EarHelp.Content.Dialogs;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Content.Sources;
using EarHelp.Triage.Cells;
using EarHelp.Triage.Tables;

namespace EarHelp.Content;

/// <summary>Reads one decision table of any Markdown file, over plain values.</summary>
public static partial class DecideFile
{
    // Columns of a dialog's table that explain a row and conclude nothing.
    static readonly string[] Notes = [Conclusions.Because, Conclusions.Source, Conclusions.Sure, Conclusions.AlsoSaidBy];

    /// <param name="levels">The order of a column **level**, if the file has no levels of its own; the first is the most urgent.</param>
    /// <param name="name">Which table, if the file holds several: the heading above it, without the policy. Null: the only one.</param>
    public static DecideReading Read(SourceFile file, ImmutableArray<string> levels, string? name)
    {
        ArgumentNullException.ThrowIfNull(file);
        var problems = new ProblemList();
        var page = PageReader.Read(file, problems);
        var tables = page.Parts.OfType<PagePart.Table>().Where(t => t.Headings.Any(h => h.IsBold)).ToArray();
        var chosen = name is null ? tables : [.. tables.Where(t => NameOf(t) == name)];
        if (chosen.Length != 1)
        {
            problems.Add(
                Codes.MissingTable,
                page.Top,
                chosen.Length == 0 ? "The file holds no such decision table." : "The file holds several decision tables.",
                tables.Length == 0 ? "Write a table with at least one conclusion column with a bold heading." : $"Name one: {string.Join(", ", tables.Select(NameOf))}.");
            return new DecideReading(null, problems.InReadingOrder());
        }

        var own = LevelsOf([page]);
        var table = Read(chosen[0], own.IsEmpty ? levels : own, problems);
        return new DecideReading(problems.IsEmpty ? table : null, problems.InReadingOrder());
    }

    /// <summary>The names of the levels that some sources list, the most urgent first.</summary>
    public static ImmutableArray<string> LevelsOf(ImmutableArray<SourceFile> sources)
    {
        var ignored = new ProblemList();
        return LevelsOf(sources.Where(s => s.Path.StartsWith("dialogs/", StringComparison.Ordinal)).Select(s => PageReader.Read(s, ignored)));
    }

    static ImmutableArray<string> LevelsOf(IEnumerable<Page> pages) =>
        [.. pages.SelectMany(p => p.Parts.OfType<PagePart.Table>()).Where(t => TableKind.Of(t) == "level").SelectMany(t => t.Rows).Select(r => r.Cells[0].Text)];

    static DecisionTable? Read(PagePart.Table table, ImmutableArray<string> levels, ProblemList problems)
    {
        var policy = Policy().Match(table.Title.Replace("\\", string.Empty, StringComparison.Ordinal)) is { Success: true } match
            ? HitPolicy.Of(match.Groups["letter"].Value)
            : null;
        if (policy is null)
            problems.Add(Codes.BadPolicy, table.TitleSpot, "The heading above the table does not state its hit policy.", $"Write it in brackets: (policy P: …). The letters are: {string.Join(", ", HitPolicy.All.Select(p => p.Letter))}.");
        var hasIds = TableKind.Of(table) == "rule";
        ImmutableArray<int> conditions = [.. Places(table, h => !h.IsBold).Where(i => !(hasIds && i == 0))];
        ImmutableArray<int> conclusions = [.. Places(table, h => h.IsBold && !Notes.Contains(Outputs.NameOf(h), StringComparer.Ordinal))];
        var outputs = conclusions.Select(i => Outputs.ColumnOf(table.Headings[i], levels, problems)).ToImmutableArray();
        var rows = table.Rows
            .Select((row, i) => new TableRow(
                hasIds ? row.Cells[0].Text : $"{i + 1}",
                [.. conditions.Select(c => Test(row.Cells[c], problems))],
                [.. conclusions.Select(c => Outputs.ValueOf(row.Cells[c].Text, row.Cells[c], problems))]))
            .ToImmutableArray();
        return policy is null ? null : new DecisionTable(NameOf(table), policy, [.. conditions.Select(i => table.Headings[i].Text)], outputs, rows);
    }

    static IEnumerable<int> Places(PagePart.Table table, Func<Cell, bool> isMeant) =>
        Enumerable.Range(0, table.Headings.Length).Where(i => isMeant(table.Headings[i]));

    static UnaryTest Test(Cell cell, ProblemList problems)
    {
        var reading = CellParser.Parse(cell.Text, CellScope.AnyName);
        if (reading.Fault is { } fault)
            problems.Add(Codes.BadCell, cell.At(fault.Offset), fault.Fault, fault.Mend);
        return reading.Test ?? new UnaryTest.Anything();
    }

    static string NameOf(PagePart.Table table)
    {
        var bracket = table.Title.LastIndexOf("(policy", StringComparison.OrdinalIgnoreCase);
        return (bracket >= 0 ? table.Title[..bracket] : table.Title).Trim();
    }

    [GeneratedRegex(@"\bpolicy:?\s*(?<letter>[A-Za-z][+<>#]?)", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex Policy();
}

/// <summary>A table that was read, or what is wrong with it.</summary>
public sealed record DecideReading(DecisionTable? Table, ImmutableArray<Problem> Problems);
