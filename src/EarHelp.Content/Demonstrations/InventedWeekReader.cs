using System.Collections.Frozen;
using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Content.Sources;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Demonstrations;

/// <summary>Reads <c>dialogs/demo/week.md</c>. Never throws on any file.</summary>
public static class InventedWeekReader
{
    static readonly string[] Tables = ["staff", "first name", "surname", "how many", "request", "visit", "call", "incident", "message"];

    /// <returns>The week, or null with everything that is wrong with the file.</returns>
    public static (InventedWeek? Week, ImmutableArray<Problem> Problems) Read(SourceFile file, Dialog dialog, KnownInWeek known)
    {
        ArgumentNullException.ThrowIfNull(dialog);
        ArgumentNullException.ThrowIfNull(known);
        var problems = new ProblemList();
        var page = PageReader.Read(file, problems);
        foreach (var stray in page.Tables.Where(t => !Tables.Contains(t.Kind)))
            problems.AddUnknown(Codes.UnknownPart, stray.Spot, "table of an invented week with the heading", stray.Kind, Tables);
        foreach (var kind in Tables.Where(k => page.Tables.All(t => t.Kind != k)))
            problems.Add(Codes.MissingPart, page.Source.SpotAt(0), $"The invented week has no table \"{kind}\".", $"Add a table whose first heading is \"{kind}\".");
        var cells = new WeekCells(dialog, problems);
        var week = new InventedWeek(
            [.. RowsOf("staff", "roles", "on duty").Select(r => new InventedStaff(
                r["staff"].Text, cells.Names(r["roles"], "role", known.Roles), cells.YesNo(r["on duty"]), r.Spot))],
            [.. RowsOf("first name").Select(r => r["first name"].Text)],
            [.. RowsOf("surname").Select(r => r["surname"].Text)],
            ReadCounts(RowsOf("how many", "number"), page.Source.SpotAt(0), known, cells, problems),
            [.. RowsOf("request", "level", "hours ago", "then", "word", "note", "needs").Select(r => new InventedRequest(
                r["request"].Text, cells.Level(r["level"]) ?? 0, cells.Hours(r["hours ago"]), cells.OneOf(r["then"], "happening", known.Happenings),
                WeekCells.TextOf(r["word"]), WeekCells.TextOf(r["note"]), WeekCells.ListOf(r["needs"]), r.Spot))],
            [.. RowsOf("visit", "level", "hours ago", "left", "right", "person", "later").Select(r => new InventedVisit(
                r["visit"].Text, cells.Level(r["level"]) ?? 0, cells.Hours(r["hours ago"]), cells.Findings(r["left"]), cells.Findings(r["right"]),
                cells.Findings(r["person"]), cells.Level(r["later"]), r.Spot))],
            [.. RowsOf("call", "level", "hours ago", "ended").Select(r => new InventedCall(
                WeekCells.TextOf(r["call"]), cells.Level(r["level"]) ?? 0, cells.Hours(r["hours ago"]), cells.OneOf(r["ended"], "end of a call", known.CallEnds), r.Spot))],
            [.. RowsOf("incident", "by").Select(r => new InventedIncident(r["incident"].Text, r["by"].Text, r.Spot))],
            [.. RowsOf("message", "how often").Select(r => new InventedMessage(r["message"].Text, cells.Whole(r["how often"]), r.Spot))]);
        ReportStrangers(week, dialog, known, problems);
        return problems.IsEmpty ? (week, []) : (null, problems.Sorted());

        IEnumerable<WeekRow> RowsOf(string kind, params string[] others)
        {
            foreach (var table in page.Tables.Where(t => t.Kind == kind))
            {
                var columns = Columns.Of(table, [kind, .. others], [], problems);
                foreach (var row in table.Rows.Where(r => r.Cells[0].Text.Length > 0))
                    yield return new WeekRow(row, columns);
            }
        }
    }

    static FrozenDictionary<string, int> ReadCounts(IEnumerable<WeekRow> rows, SourceSpot ofPage, KnownInWeek known, WeekCells cells, ProblemList problems)
    {
        var counts = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (var row in rows)
            counts[cells.OneOf(row["how many"], "count", known.Counts)] = cells.Whole(row["number"]);
        foreach (var missing in known.Counts.Where(c => !counts.ContainsKey(c)))
            problems.Add(Codes.MissingPart, ofPage, $"It is not said how many \"{missing}\" there are.", $"Add a row \"{missing}\" with a whole number from 0.");
        return counts.ToFrozenDictionary(StringComparer.Ordinal);
    }

    static void ReportStrangers(InventedWeek week, Dialog dialog, KnownInWeek known, ProblemList problems)
    {
        foreach (var request in week.Requests.Where(r => known.WithLevel.Contains(r.Then) && dialog.Levels.All(l => l.Id != r.Word)))
            problems.AddUnknown(Codes.UnknownName, request.Spot, "level", request.Word, dialog.Levels.Select(l => l.Id));
        foreach (var request in week.Requests.Where(r => known.WithPlace.Contains(r.Then) && dialog.Destinations.All(d => d.Id != r.Word)))
            problems.AddUnknown(Codes.UnknownName, request.Spot, "destination", request.Word, dialog.Destinations.Select(d => d.Id));
        foreach (var incident in week.Incidents.Where(i => i.By != known.Patient && week.Staff.All(s => s.Name != i.By)))
            problems.AddUnknown(Codes.UnknownName, incident.Spot, "member of staff", incident.By, week.Staff.Select(s => s.Name).Append(known.Patient));
    }
}
