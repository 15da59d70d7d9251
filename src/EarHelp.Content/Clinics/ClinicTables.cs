using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Cells;
using EarHelp.Triage.Editions;
using NodaTime;
using NodaTime.Text;

namespace EarHelp.Content.Clinics;

/// <summary>Reads the tables of <c>content/clinic.md</c>.</summary>
sealed class ClinicTables(Page page, ProblemList problems)
{
    static readonly string[] Kinds = ["open", "closed", "holiday", "offered", VisitTable.Kind, SittingTable.Kind];
    static readonly LocalTimePattern Time = LocalTimePattern.CreateWithInvariantCulture("HH:mm");

    public void ReportUnknown()
    {
        foreach (var table in page.Tables.Where(t => !Kinds.Contains(t.Kind)))
        {
            if (NearestName.To(table.Kind, Kinds) is { } near)
                problems.Add(Codes.TableNearMiss, table.Spot, $"The table \"{table.Kind}\" is not read, but its heading is close to \"{near}\".", $"Write \"{near}\" if that is meant, else choose another heading.");
        }
    }

    public ImmutableArray<OpenHours> ReadOpen()
    {
        var open = ImmutableArray.CreateBuilder<OpenHours>();
        foreach (var (row, columns) in Rows("open", ["open", "from", "to"]))
        {
            var (day, from, to) = (ReadDay(row.Cells[0]), ReadTime(columns.Cell(row, "from")), ReadTime(columns.Cell(row, "to")));
            if (day is null || from is null || to is null)
                continue;
            var hours = new OpenHours(day.Value, from.Value, to.Value);
            if (hours.From >= hours.To)
                problems.Add(Codes.WrongOpeningHours, columns.Cell(row, "to").Spot, $"On {row.Cells[0].Text} the clinic closes before it opens.", "Write the earlier time first.");
            else if (open.Any(o => o.Day == hours.Day && o.From < hours.To && hours.From < o.To))
                problems.Add(Codes.WrongOpeningHours, row.Spot, $"The hours of {row.Cells[0].Text} overlap with another row.", "Let the rows of one day follow each other.");
            else
                open.Add(hours);
        }

        if (!page.Tables.Any(t => t.Kind == "open"))
            problems.Add(Codes.WrongOpeningHours, page.Settings.Spot, "The clinic has no opening hours.", "Add a table \"open | from | to\".");
        return [.. open.OrderBy(o => o.Day).ThenBy(o => o.From)];
    }

    public ImmutableArray<Closure> ReadClosures()
    {
        var closures = ImmutableArray.CreateBuilder<Closure>();
        foreach (var (row, columns) in Rows("closed", ["closed", "to", "because"]))
        {
            var to = columns.Cell(row, "to");
            if (ReadDate(row.Cells[0]) is not { } from || (to.IsNothing ? from : ReadDate(to)) is not { } last)
                continue;
            if (last < from)
                problems.Add(Codes.WrongDate, to.Spot, "The closure ends before it begins.", "Write the earlier day first.");
            else
                closures.Add(new Closure(from, last, columns.Cell(row, "because").Text));
        }

        return closures.ToImmutable();
    }

    public ImmutableArray<Holiday> ReadHolidays()
    {
        var holidays = ImmutableArray.CreateBuilder<Holiday>();
        foreach (var (row, columns) in Rows("holiday", ["holiday", "name"]))
        {
            if (ReadDate(row.Cells[0]) is { } date)
                holidays.Add(new Holiday(date, columns.Cell(row, "name").Text));
        }

        return holidays.ToImmutable();
    }

    public ImmutableArray<string> ReadOffered()
    {
        var offered = ImmutableArray.CreateBuilder<string>();
        foreach (var row in page.Tables.Where(t => t.Kind == "offered").SelectMany(t => t.Rows).Where(r => r.Cells.Length > 1))
        {
            var cell = row.Cells[1];
            if (cell.Text == "yes")
                offered.Add(row.Cells[0].Text);
            else if (!cell.IsMissing && cell.Text != "no")
                problems.Add(Codes.WrongChoice, cell.Spot, $"\"{cell.Text}\" does not say whether it is offered.", "Write yes or no.");
        }

        return offered.ToImmutable();
    }

    /// <summary>Who sees patients in which room; empty without the table.</summary>
    public ImmutableArray<Sitting> ReadSittings(ImmutableArray<OpenHours> open)
    {
        var sittings = ImmutableArray.CreateBuilder<Sitting>();
        foreach (var (row, columns) in Rows(SittingTable.Kind, [SittingTable.Kind, "room", "day", "from", "to"]))
        {
            var (day, from, to) = (ReadDay(columns.Cell(row, "day")), ReadTime(columns.Cell(row, "from")), ReadTime(columns.Cell(row, "to")));
            var (by, room) = (row.Cells[0].Text, columns.Cell(row, "room").Text);
            if (day is null || from is null || to is null || by.Length == 0 || room.Length == 0)
                continue;
            var sitting = new Sitting(by, room, day.Value, from.Value, to.Value);
            if (SittingTable.FaultOf(sitting, sittings, open) is var (fault, mend))
                problems.Add(Codes.WrongOpeningHours, row.Spot, fault, mend);
            else
                sittings.Add(sitting);
        }

        return sittings.ToImmutable();
    }

    IEnumerable<(PageRow Row, Columns Columns)> Rows(string kind, string[] needed)
    {
        foreach (var table in page.Tables.Where(t => t.Kind == kind))
        {
            var columns = Columns.Of(table, needed, [], problems);
            foreach (var row in table.Rows)
                yield return (row, columns);
        }
    }

    IsoDayOfWeek? ReadDay(PageCell cell)
    {
        if (cell.Text.Length == 0)
            return null;
        if (Enum.TryParse<IsoDayOfWeek>(cell.Text, out var day) && day != IsoDayOfWeek.None && Enum.IsDefined(day) && char.IsLetter(cell.Text[0]))
            return day;
        problems.AddUnknown(Codes.WrongOpeningHours, cell.Spot, "day of the week", cell.Text, Enum.GetNames<IsoDayOfWeek>().Skip(1));
        return null;
    }

    LocalTime? ReadTime(PageCell cell)
    {
        if (cell.IsNothing && cell.Text.Length == 0)
            return null;
        var parsed = Time.Parse(cell.Text);
        if (parsed.Success)
            return parsed.Value;
        problems.Add(Codes.WrongOpeningHours, cell.Spot, $"\"{cell.Text}\" is not a time of day.", "Write hours and minutes with two digits each: 09:00.");
        return null;
    }

    LocalDate? ReadDate(PageCell cell)
    {
        if (cell.Text.Length == 0)
            return null;
        var parsed = LocalDatePattern.Iso.Parse(cell.Text);
        if (parsed.Success)
            return parsed.Value;
        problems.Add(Codes.WrongDate, cell.Spot, $"\"{cell.Text}\" is not a day.", "Write year, month and day: 2026-08-31.");
        return null;
    }
}
