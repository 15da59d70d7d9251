using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Rules;
using NodaTime;
using NodaTime.Text;

namespace EarHelp.Content.Dialogs;

/// <summary>Reads the levels, the most urgent first.</summary>
static class LevelReader
{
    const string Priority = "priority";

    /// <summary>The codes of HL7 FHIR R4, "RequestPriority", the most urgent first.</summary>
    static readonly string[] Priorities = ["stat", "asap", "urgent", "routine"];

    public static ImmutableArray<Level> Read(ImmutableArray<PageTable> tables, ProblemList problems)
    {
        var names = new NameList("level", problems);
        var levels = ImmutableArray.CreateBuilder<Level>();
        foreach (var table in tables)
        {
            var columns = Columns.Of(table, [TableKinds.Level, "within"], [Priority], problems);
            foreach (var row in table.Rows)
            {
                if (!names.Add(row.Cells[0]))
                    continue;
                var within = columns.Cell(row, "within");
                var limit = ReadLimit(within, problems);
                levels.Add(new Level(levels.Count, row.Cells[0].Text, limit, limit is null ? null : within.Text, row.Spot) { Priority = ReadPriority(columns.Cell(row, Priority), problems) });
            }
        }

        for (var i = 1; i < levels.Count; i++)
            ReportOrder(levels[i - 1], levels[i], problems);
        return levels.ToImmutable();
    }

    static void ReportOrder(Level before, Level level, ProblemList problems)
    {
        if (Array.IndexOf(Priorities, level.Priority) is >= 0 and var place && place < Array.IndexOf(Priorities, before.Priority))
            problems.Add(Codes.LevelOrder, level.Spot, $"\"{level.Id}\" ({level.Priority}) stands below \"{before.Id}\" ({before.Priority}) and has the more urgent priority.", "Let the priorities fall with the levels: stat, asap, urgent, routine.");
        if (before.Within is null ? level.Within is not null : level.Within is not null && Hours(level.Within) <= Hours(before.Within))
            problems.Add(Codes.LevelOrder, level.Spot, $"\"{level.Id}\" ({level.Iso}) stands below \"{before.Id}\" ({before.Iso ?? "no limit"}) and is not later.", "Put the most urgent first: the times grow, and levels without a limit come last.");
    }

    /// <summary>Null if it is left out.</summary>
    static string? ReadPriority(PageCell cell, ProblemList problems)
    {
        if (cell.IsMissing || cell.Text.Length == 0)
            return null;
        if (Priorities.Contains(cell.Text))
            return cell.Text;
        problems.Add(Codes.WrongChoice, cell.Spot, $"\"{cell.Text}\" is no priority of record systems.", $"Write one of: {string.Join(", ", Priorities)}.");
        return null;
    }

    static Period? ReadLimit(PageCell cell, ProblemList problems)
    {
        if (cell.IsNothing)
            return null;
        var parsed = PeriodPattern.NormalizingIso.Parse(cell.Text);
        if (parsed.Success && parsed.Value is { Years: 0, Months: 0 } period && Hours(period) >= 0)
            return period;
        problems.Add(Codes.WrongDuration, cell.Spot, $"\"{cell.Text}\" is not a length of time.", "Write PT4H for 4 hours, PT72H for 72 hours, P14D for 14 days, or - for no limit.");
        return null;
    }

    /// <summary>A day counts as 24 hours; for comparing limits only.</summary>
    public static decimal Hours(Period limit) =>
        (((limit.Weeks * 7m) + limit.Days) * 24) + limit.Hours + (limit.Minutes / 60m) + (limit.Seconds / 3600m);
}
