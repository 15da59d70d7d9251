using System.Collections.Immutable;
using EarHelp.Content.Dialogs;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Content.Sources;
using EarHelp.Triage.Cells;
using EarHelp.Triage.Tables;

namespace EarHelp.Content;

/// <summary>Reads the one decision table of any Markdown file, over plain values.</summary>
public static class DecideFile
{
    // Columns of a dialog's table that explain a row and conclude nothing.
    static readonly string[] Notes = [RuleTable.Because, RuleTable.Source, RuleTable.Sure, RuleTable.AlsoSaidBy];

    /// <param name="levels">The order of a column **level**, if the file has no levels of its own; the first is the most urgent.</param>
    /// <param name="name">Which table, if the file holds several: the heading above it, without the policy. Null: the only one.</param>
    public static DecideReading Read(SourceFile file, ImmutableArray<string> levels, string? name = null)
    {
        ArgumentNullException.ThrowIfNull(file);
        var problems = new ProblemList();
        var page = PageReader.Read(file, problems);
        var all = page.Tables.Where(t => t.Headings.Any(h => h.IsBold)).ToList();
        var tables = name is null ? all : [.. all.Where(t => PolicyWords.NameOf(t.Above) == name)];
        if (all.Count == 0)
            problems.Add(Codes.NotOneDecision, page.Source.SpotAt(0), "The file holds no decision table.", "Write a table with condition columns and at least one conclusion column with a bold heading: **level**.");
        else if (tables.Count != 1)
            problems.Add(Codes.NotOneDecision, (tables.LastOrDefault() ?? all[0]).Spot, name is null ? "The file holds several decision tables." : $"The file does not hold one decision table \"{name}\".", $"Name one: {string.Join(", ", all.Select(t => PolicyWords.NameOf(t.Above)))}.");
        var table = tables.Count != 1 ? null : Read(tables[0], LevelsOf([page]) is { IsEmpty: false } own ? own : levels, problems);
        var found = problems.Sorted();
        return new DecideReading(found.IsEmpty ? table : null, found);
    }

    /// <summary>The names of the levels that some sources list, the most urgent first.</summary>
    public static ImmutableArray<string> LevelsOf(ImmutableArray<SourceFile> sources)
    {
        var ignored = new ProblemList();
        return LevelsOf(sources.Where(s => s.Path.StartsWith("dialogs/", StringComparison.Ordinal)).Select(s => PageReader.Read(s, ignored)));
    }

    static ImmutableArray<string> LevelsOf(IEnumerable<Page> pages) =>
        [.. pages.SelectMany(p => p.Tables).Where(t => t.Kind == TableKinds.Level).SelectMany(t => t.Rows).Select(r => r.Cells[0].Text)];

    static DecisionTable? Read(PageTable table, ImmutableArray<string> levels, ProblemList problems)
    {
        var policy = PolicyWords.Read(table, problems, needsWords: false);
        var hasIds = table.Kind == TableKinds.Rule;
        var conditions = Places(table, h => !h.IsBold).Where(i => !(hasIds && i == 0)).ToImmutableArray();
        var conclusions = Places(table, h => h.IsBold && !Notes.Contains(h.Name)).ToImmutableArray();
        if (conclusions.IsEmpty)
            conclusions = [.. Places(table, h => h.IsBold)];
        ReportDoubled(table, problems);
        if (policy is { Aggregates: true } && conclusions.Length > 1)
            problems.Add(Codes.UnsuitedPolicy, table.AboveSpot, $"Policy {policy.Letter} makes one value, and the table has {conclusions.Length} conclusion columns.", "Keep one conclusion column, or use policy C.");
        var outputs = conclusions.Select(i => Output(table.Headings[i], levels, problems)).ToImmutableArray();
        var rows = table.Rows.Select((row, i) => Row(row, hasIds ? row.Cells[0].Text : $"{i + 1}", conditions, conclusions, problems)).ToImmutableArray();
        if (policy is { NeedsOrder: true })
            ReportOrder(table, policy, outputs, conclusions, rows, problems);
        return policy is null ? null : new DecisionTable(PolicyWords.NameOf(table.Above), policy, [.. conditions.Select(i => table.Headings[i].Text)], outputs, rows);
    }

    static IEnumerable<int> Places(PageTable table, Func<PageCell, bool> isMeant) =>
        Enumerable.Range(0, table.Headings.Length).Where(i => isMeant(table.Headings[i]));

    static void ReportDoubled(PageTable table, ProblemList problems)
    {
        var seen = new HashSet<string>(StringComparer.Ordinal);
        foreach (var heading in table.Headings.Where(h => !seen.Add(h.Name)))
            problems.Add(Codes.DoubledColumn, heading.Spot, $"The column \"{heading.Name}\" stands twice.", "Keep one of them.");
    }

    static OutputColumn Output(PageCell heading, ImmutableArray<string> levels, ProblemList problems)
    {
        var order = heading.Order.IsEmpty && heading.Name == RuleTable.Level && !levels.IsDefault ? levels : heading.Order;
        return new OutputColumn(heading.Name, [.. order.Select(o => Conclusion(o, heading, problems))]);
    }

    static TableRow Row(PageRow row, string id, ImmutableArray<int> conditions, ImmutableArray<int> conclusions, ProblemList problems)
    {
        var tests = conditions.Select(i => Test(row.Cells[i], problems)).ToImmutableArray();
        return new TableRow(id, tests, [.. conclusions.Select(i => row.Cells[i].IsMissing ? FeelValue.Nothing : Conclusion(row.Cells[i].Text, row.Cells[i], problems))]);
    }

    static UnaryTest Test(PageCell cell, ProblemList problems)
    {
        var reading = CellParser.Parse(cell.IsMissing ? "-" : cell.Text, CellScope.AnyName);
        if (reading.Fault is { } fault)
            Report(fault, cell, problems);
        return reading.Test ?? new UnaryTest.Anything();
    }

    static FeelValue Conclusion(string text, PageCell cell, ProblemList problems)
    {
        var (value, fault) = ConclusionCells.Read(text);
        if (fault is not null)
            Report(fault, cell, problems);
        return value ?? FeelValue.Nothing;
    }

    static void Report(CellFault fault, PageCell cell, ProblemList problems)
    {
        if (cell.Text.Length == 0)
            EmptyCells.Report(cell, "of the row", problems);
        else
            ConditionReader.Report(fault, "", cell.Spot, problems);
    }

    static void ReportOrder(PageTable table, HitPolicy policy, ImmutableArray<OutputColumn> outputs, ImmutableArray<int> places, ImmutableArray<TableRow> rows, ProblemList problems)
    {
        if (outputs.All(o => o.Order.IsEmpty))
            problems.Add(Codes.OrderMissing, table.Headings[places[0]].Spot, $"Policy {policy.Letter} goes by the order of the conclusion's values, and none is given.", "Write it behind the heading, the most important first: **level** (high, medium, low).");
        for (var column = 0; column < outputs.Length; column++)
        {
            for (var row = 0; row < rows.Length && !outputs[column].Order.IsEmpty; row++)
            {
                if (!outputs[column].Order.Contains(rows[row].Conclusions[column]))
                    problems.Add(Codes.OrderMissing, table.Rows[row].Cells[places[column]].Spot, $"{rows[row].Conclusions[column]} has no place in the order of **{outputs[column].Name}**.", $"The order is: {string.Join(", ", outputs[column].Order)}.");
            }
        }
    }
}

/// <summary>A table that was read, or what is wrong with it.</summary>
public sealed record DecideReading(DecisionTable? Table, ImmutableArray<Problem> Problems);
