using System.Globalization;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Rules;
using NodaTime;
using NodaTime.Text;

namespace EarHelp.Content.Dialogs;

/// <summary>Reads levels, destinations and sources.</summary>
static class PlacesReader
{
    static readonly string[] DestinationOptional = ["reached when"];
    static readonly string[] SourceColumns = ["organisation", "title", "year", "part", "how sure"];

    public static void ReadLevels(DialogDraft draft)
    {
        foreach (var (_, table) in TableKind.Find(draft.Pages, "level"))
        {
            if (Columns.Read(table, ["within"], [], draft.Problems) is not { } columns)
                continue;
            foreach (var row in table.Rows.Where(r => Names.IsFree(r.Cells[0], draft.Levels, "a level", draft.Problems)))
            {
                var within = columns.Of(row, "within");
                draft.Levels.Add(
                    row.Cells[0].Text,
                    new Level(draft.Levels.Count, row.Cells[0].Text, Limit(draft, within), within.IsAnything ? null : within.Text, row.Spot));
            }
        }

        if (draft.Levels.Count == 0)
            draft.Problems.Add(Codes.MissingTable, new("dialogs/levels.md", 1, 1), "No table of levels is there.", "Write one with the headings level and within.");
        CheckOrder(draft);
    }

    /// <summary>Hours that a limit lasts, days as 24; none: infinite.</summary>
    public static double HoursOf(Level level) =>
        level.Within is { } p ? p.Hours + (p.Minutes / 60.0) + (24.0 * (p.Days + (7 * p.Weeks))) : double.PositiveInfinity;

    public static void ReadDestinations(DialogDraft draft)
    {
        foreach (var (_, table) in TableKind.Find(draft.Pages, "destination"))
        {
            if (Columns.Read(table, ["hours"], DestinationOptional, draft.Problems) is not { } columns)
                continue;
            foreach (var row in table.Rows.Where(r => Names.IsFree(r.Cells[0], draft.Destinations, "a destination", draft.Problems)))
            {
                var hours = columns.Of(row, "hours");
                if (!Enum.TryParse<DestinationHours>(hours.Text, true, out var read) || hours.Text.Any(char.IsDigit))
                    draft.Problems.Add(Codes.BadHours, hours.Spot, $"\"{hours.Text}\" says nothing about opening hours.", "Write always, clinic or unknown.");
                draft.Destinations.Add(row.Cells[0].Text, new Destination(draft.Destinations.Count, row.Cells[0].Text, read, null, row.Spot));
            }
        }
    }

    /// <summary>After the facts are known: which destinations can be reached when.</summary>
    public static void ReadReach(DialogDraft draft)
    {
        foreach (var (_, table) in TableKind.Find(draft.Pages, "destination"))
        {
            if (Columns.Read(table, ["hours"], DestinationOptional, new ProblemList()) is not { } columns || !columns.Has("reached when"))
                continue;
            foreach (var row in table.Rows.Where(r => draft.Destinations.ContainsKey(r.Cells[0].Text)))
            {
                var conditions = ConditionReader.ReadList(draft, columns.Find(row, "reached when"));
                if (conditions.Length > 1)
                    draft.Problems.Add(Codes.BadCondition, columns.Of(row, "reached when").Spot, "A destination has one condition for reaching it.", "Make a named fact of the several and use that.");
                var destination = draft.Destinations[row.Cells[0].Text];
                draft.Destinations[destination.Id] = destination with { ReachedWhen = conditions.FirstOrDefault() };
            }
        }
    }

    public static void ReadSources(DialogDraft draft)
    {
        foreach (var (_, table) in TableKind.Find(draft.Pages, "source"))
        {
            if (Columns.Read(table, SourceColumns, [], draft.Problems) is not { } columns)
                continue;
            foreach (var row in table.Rows)
            {
                var id = row.Cells[0].Text;
                var source = new Source(id, Text("organisation"), Text("title"), Text("year"), Text("part"), Text("how sure"), row.Spot);
                if (!draft.Sources.TryAdd(id, source))
                    draft.Problems.Add(Codes.NameTaken, row.Cells[0].Spot, $"The source \"{id}\" is given twice.", "Give one of them another id.");
                if (source.HowSure is not ("read" or "read second hand" or "from memory"))
                    draft.Problems.Add(Codes.BadKind, columns.Of(row, "how sure").Spot, $"\"{source.HowSure}\" does not say how sure the source is.", "Write read, read second hand or from memory.");

                string Text(string column) => columns.Of(row, column).Text;
            }
        }
    }

    static Period? Limit(DialogDraft draft, Cell cell)
    {
        if (cell.IsAnything)
            return null;
        var parsed = PeriodPattern.NormalizingIso.Parse(cell.Text);
        if (parsed.Success && !parsed.Value.HasDateComponent)
            parsed = PeriodPattern.Roundtrip.Parse(cell.Text);
        if (parsed.Success && parsed.Value is { Years: 0, Months: 0 })
            return parsed.Value;
        draft.Problems.Add(Codes.BadLimit, cell.Spot, $"\"{cell.Text}\" is not a limit.", "Write an ISO 8601 duration such as PT4H or P14D, or - for none.");
        return null;
    }

    static void CheckOrder(DialogDraft draft)
    {
        var last = -1.0;
        foreach (var level in draft.Levels.Values)
        {
            if (HoursOf(level) < last)
            {
                draft.Problems.Add(
                    Codes.LevelOrder,
                    level.Spot,
                    $"\"{level.Id}\" has a shorter limit ({level.Iso?.ToString(CultureInfo.InvariantCulture)}) than the level above it.",
                    "Put the levels in order, the most urgent first.");
            }

            last = HoursOf(level);
        }
    }
}
