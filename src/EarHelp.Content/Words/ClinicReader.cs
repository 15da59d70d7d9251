using System.Collections.Immutable;
using System.Globalization;
using EarHelp.Content.Dialogs;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Texts;
using NodaTime;
using NodaTime.Text;

namespace EarHelp.Content.Words;

/// <summary>Reads <c>clinic.md</c> and <c>emergency-numbers.md</c>.</summary>
sealed class ClinicReader(ImmutableArray<Page> pages, ProblemList problems)
{
    public const string ClinicPath = "content/clinic.md";
    public const string NumbersPath = "content/emergency-numbers.md";

    static readonly string[] Needed =
    [
        "name", "town", "country", "address", "time zone", "phone", "text", "email", "relay", "visit minutes", "emergency number",
        "emergency without hearing", "crisis line", "crisis without hearing",
    ];

    static readonly string[] Twins = ["text", "emergency without hearing", "crisis without hearing"];
    static readonly string[] Known = [.. Needed, "title", "owner", "reviewed on", "review by"];
    static readonly string[] NumberSettings = ["title", "owner", "reviewed on", "review by"];

    public Clinic Read(LocalDate? today)
    {
        var page = pages.FirstOrDefault(p => p.Path == ClinicPath) ?? new Page(ClinicPath, [], []);
        SettingChecks.Report(page, Known, problems);
        foreach (var name in Needed.Where(n => string.IsNullOrWhiteSpace(page[n])))
        {
            var isTwin = Twins.Contains(name, StringComparer.Ordinal);
            problems.Add(
                isTwin ? Codes.PhoneWithoutTwin : Codes.MissingSetting,
                page.Top,
                isTwin ? $"A telephone number stands without a way for those who cannot hear: \"{name}\" is missing." : $"The clinic's \"{name}\" is missing.",
                $"Write \"{name}: …\" in the settings of clinic.md.");
        }

        var clinic = new Clinic(
            Text("name"),
            Text("town"),
            Text("country"),
            Text("address"),
            ZoneOf(page),
            Text("phone"),
            Text("text"),
            Text("email"),
            Text("relay"),
            MinutesOf(page),
            Text("emergency number"),
            Text("emergency without hearing"),
            Text("crisis line"),
            Text("crisis without hearing"),
            [.. Rows(page, "open", ["from", "to"]).Select(OpenOf).OfType<OpenHours>()],
            [.. Rows(page, "closed", ["to", "because"]).Select(ClosureOf).OfType<Closure>()],
            [.. Rows(page, "holiday", ["name"]).Select(HolidayOf).OfType<Holiday>()],
            [.. OfferedOf(page)]);
        CheckHolidays(page, clinic, today);
        return clinic;

        string Text(string name) => page[name] ?? string.Empty;
    }

    public EmergencyNumbers ReadNumbers()
    {
        var page = pages.FirstOrDefault(p => p.Path == NumbersPath) ?? new Page(NumbersPath, [], []);
        SettingChecks.Report(page, NumberSettings, problems);
        var numbers = Rows(page, "country", ["call", "without hearing", "source"])
            .Select(r => new EmergencyNumber(r.Cells[0].Text, r.Cells[1].Text, r.Cells[2].Text, r.Cells[3].Text))
            .ToImmutableArray();
        var elsewhere = Section.Of(page).FirstOrDefault(s => s.Name == "Anywhere else");
        if (numbers.IsEmpty || elsewhere is null)
            problems.Add(Codes.MissingTable, page.Top, "The emergency numbers by country, or the sentence for any other country, are missing.", "Write a table \"country, call, without hearing, source\" and a section \"## Anywhere else\".");
        return new EmergencyNumbers(numbers, elsewhere is null ? Prose.Empty : ProseReader.Read(elsewhere.Passages, problems));
    }

    IEnumerable<Row> Rows(Page page, string first, string[] others)
    {
        var tables = page.Parts.OfType<PagePart.Table>().Where(t => TableKind.Of(t) == first).ToArray();
        foreach (var table in tables.Where(t => Columns.Read(t, others, [], problems) is not null))
        {
            foreach (var row in table.Rows)
            {
                foreach (var cell in row.Cells.Where(c => c.Text.Length == 0))
                    problems.Add(Codes.EmptyCell, cell.Spot, "The cell is empty.", "Write what belongs here.");
                yield return row;
            }
        }
    }

    OpenHours? OpenOf(Row row)
    {
        if (Enum.TryParse<IsoDayOfWeek>(row.Cells[0].Text, false, out var day) && day != IsoDayOfWeek.None
            && TimeOf(row.Cells[1]) is { } from && TimeOf(row.Cells[2]) is { } to && from < to)
        {
            return new OpenHours(day, from, to);
        }

        problems.Add(Codes.BadClinicTable, row.Spot, "These are no opening hours.", "Write a day of the week and two times, for example Monday, 09:00, 17:30.");
        return null;
    }

    Closure? ClosureOf(Row row)
    {
        if (DateOf(row.Cells[0]) is { } from && DateOf(row.Cells[1]) is { } to && from <= to)
            return new Closure(from, to, row.Cells[2].Text);
        problems.Add(Codes.BadClinicTable, row.Spot, "This is no closure.", "Write two dates in order, for example 2026-12-24, 2026-12-28.");
        return null;
    }

    Holiday? HolidayOf(Row row)
    {
        if (DateOf(row.Cells[0]) is { } date)
            return new Holiday(date, row.Cells[1].Text);
        problems.Add(Codes.BadClinicTable, row.Spot, "This is no date.", "Write a date as 2026-12-25.");
        return null;
    }

    static IEnumerable<string> OfferedOf(Page page) =>
        page.Parts.OfType<PagePart.Table>()
            .Where(t => TableKind.Of(t) == "offered")
            .SelectMany(t => t.Rows)
            .Where(r => r.Cells.Length > 1 && r.Cells[1].Text == "yes")
            .Select(r => r.Cells[0].Text);

    void CheckHolidays(Page page, Clinic clinic, LocalDate? today)
    {
        if (clinic.Open.IsEmpty)
            problems.Add(Codes.BadClinicTable, page.Top, "The clinic has no opening hours.", "Write a table \"open, from, to\".");
        if (clinic.Holidays.IsEmpty)
            problems.Add(Codes.HolidaysEnded, page.Top, "No holidays are listed.", "Write a table \"holiday, name\" that covers this year and the next.");
        else if (today is { } now && now.Year > clinic.Holidays.Max(h => h.Date.Year))
            problems.Add(Codes.HolidaysEnded, page.Top, $"The last listed holiday is in {clinic.Holidays.Max(h => h.Date.Year)}.", "Add the holidays of this year and the next: without them no deadline can be worked out.");
    }

    DateTimeZone ZoneOf(Page page)
    {
        if (page.Find("time zone") is { } setting && DateTimeZoneProviders.Tzdb.GetZoneOrNull(setting.Value) is { } zone)
            return zone;
        if (page.Find("time zone") is { } bad)
            problems.Add(Codes.BadSettingValue, bad.Spot, $"There is no time zone \"{bad.Value}\".", "Write a name of the IANA time zone database such as Europe/London.");
        return DateTimeZone.Utc;
    }

    int MinutesOf(Page page)
    {
        if (int.TryParse(page["visit minutes"], NumberStyles.None, CultureInfo.InvariantCulture, out var minutes) && minutes is > 0 and <= 1440)
            return minutes;
        if (page.Find("visit minutes") is { } bad)
            problems.Add(Codes.BadSettingValue, bad.Spot, $"\"{bad.Value}\" is no length of a visit.", "Write whole minutes, from 1 to 1440.");
        return 1;
    }

    static LocalTime? TimeOf(Cell cell) => LocalTimePattern.CreateWithInvariantCulture("HH:mm").Parse(cell.Text) is { Success: true } time ? time.Value : null;

    static LocalDate? DateOf(Cell cell) => LocalDatePattern.Iso.Parse(cell.Text) is { Success: true } date ? date.Value : null;
}
