using System.Collections.Immutable;
using System.Globalization;
using EarHelp.Content.Dialogs;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Editions;
using NodaTime;

namespace EarHelp.Content.Clinics;

/// <summary>Reads <c>content/clinic.md</c>.</summary>
static class ClinicReader
{
    public const string File = "content/clinic.md";

    const string ReviewGrace = "review grace days";

    const string RequestKept = "request kept days";

    const string VisitKept = "visit kept days";

    const string WordsKept = "words kept days";

    const string RecordAddress = "record address";

    const int MinutesOfDay = 24 * 60;

    static readonly string[] Needed =
    [
        "name", "town", "country", "address", "time zone", "phone", "visit minutes", "emergency number", "crisis line",
    ];

    static readonly string[] Optional =
        ["text", "email", "relay", "visit cost", ReviewGrace, RequestKept, VisitKept, WordsKept, CheckInTimes.Days, CheckInTimes.Reminder, CheckInTimes.From, CheckInTimes.To, RecordAddress, CountedAnswers.Setting, CountedAnswers.AmongSetting, "emergency without hearing", "crisis without hearing", "owner", "reviewed on", "review by", "title"];

    /// <summary>Null if there is no such file.</summary>
    public static Clinic? Read(Page? page, Dialog dialog, LocalDate? today, ProblemList problems)
    {
        if (page is null)
        {
            problems.Add(Codes.MissingClinicFile, new Triage.Texts.SourceSpot(File, 1, 1), "There is no such file.", "Write it as content/README.md says: who the clinic is, its hours and its telephone with a way without hearing.");
            return null;
        }

        KnownSettings.Report(page, [.. Needed, .. Optional], problems);
        foreach (var missing in Needed.Where(n => page.Settings.Find(n) is null))
            problems.Add(Codes.MissingSetting, page.Settings.Spot, $"The setting \"{missing}\" is missing.", $"Add a line \"{missing}: …\" at the top of the file.");
        ReportTwins(page, problems);
        string Text(string name) => page.Settings.Find(name)?.Value ?? "";
        var tables = new ClinicTables(page, problems);
        tables.ReportUnknown();
        var holidays = tables.ReadHolidays();
        ReportHolidaysEnd(page, holidays, today, problems);
        var open = tables.ReadOpen();
        var (counted, among) = CountedAnswers.Read(page, dialog, problems);
        return new Clinic(Text("name"), Text("town"), Text("country"), Text("address"), ReadZone(page, problems), Text("phone"), Text("text"), Text("email"), Text("relay"),
            ReadMinutes(page, problems), Text("emergency number"), Text("emergency without hearing"), Text("crisis line"), Text("crisis without hearing"),
            open, tables.ReadClosures(), holidays, tables.ReadOffered())
        {
            VisitCost = Text("visit cost"),
            ReviewGraceDays = ReadDays(page, ReviewGrace, problems),
            RequestKeptDays = ReadDays(page, RequestKept, problems),
            VisitKeptDays = ReadDays(page, VisitKept, problems),
            WordsKeptDays = ReadDays(page, WordsKept, problems),
            RecordAddress = ReadAddress(page, problems),
            CheckInDays = CheckInTimes.ReadDays(page, problems),
            ReminderDays = ReadDays(page, CheckInTimes.Reminder, problems),
            MessagesFrom = CheckInTimes.ReadTime(page, CheckInTimes.From, LocalTime.Midnight, problems),
            MessagesTo = CheckInTimes.ReadTime(page, CheckInTimes.To, LocalTime.MaxValue, problems),
            CountedAnswers = counted,
            CountedAmong = among,
            Lengths = VisitTable.Read(page, problems),
            Sittings = tables.ReadSittings(open),
        };
    }

    static void ReportTwins(Page page, ProblemList problems)
    {
        (string Number, string[] Twins)[] pairs =
        [
            ("phone", ["text", "email", "relay"]),
            ("emergency number", ["emergency without hearing"]),
            ("crisis line", ["crisis without hearing"]),
        ];
        foreach (var (number, twins) in pairs)
        {
            if (page.Settings.Find(number) is { } setting && !twins.Any(t => page.Settings.Find(t) is { Value.Length: > 0 }))
                problems.Add(Codes.ClinicWithoutTwin, setting.Spot, $"\"{number}\" has no way without hearing beside it.", $"Add the setting {string.Join(" or ", twins.Select(t => $"\"{t}\""))}.");
        }
    }

    static DateTimeZone ReadZone(Page page, ProblemList problems)
    {
        var setting = page.Settings.Find("time zone");
        if (setting is null)
            return DateTimeZone.Utc;
        if (DateTimeZoneProviders.Tzdb.GetZoneOrNull(setting.Value) is { } zone)
            return zone;
        problems.AddUnknown(Codes.UnknownTimeZone, setting.ValueSpot, "time zone", setting.Value, DateTimeZoneProviders.Tzdb.Ids);
        return DateTimeZone.Utc;
    }

    static int ReadMinutes(Page page, ProblemList problems)
    {
        var setting = page.Settings.Find("visit minutes");
        if (setting is null)
            return 0;
        if (int.TryParse(setting.Value, NumberStyles.None, CultureInfo.InvariantCulture, out var minutes) && minutes is > 0 and < MinutesOfDay)
            return minutes;
        problems.Add(Codes.WrongSetting, setting.ValueSpot, $"\"{setting.Value}\" is not a number of minutes.", "Write a whole number, for example 30.");
        return 0;
    }

    /// <summary>Empty if it is left out.</summary>
    static string ReadAddress(Page page, ProblemList problems)
    {
        var setting = page.Settings.Find(RecordAddress);
        if (setting is null)
            return "";
        if (Uri.TryCreate(setting.Value, UriKind.Absolute, out var address) && address is { Scheme: "https", Query: "", Fragment: "" } && !setting.Value.EndsWith('/'))
            return setting.Value;
        problems.Add(Codes.WrongSetting, setting.ValueSpot, $"\"{setting.Value}\" is not an https address without a slash at its end.", "Write it whole, for example https://records.clinic.example.org.");
        return "";
    }

    /// <summary>0 if it is left out.</summary>
    static int ReadDays(Page page, string name, ProblemList problems)
    {
        var setting = page.Settings.Find(name);
        if (setting is null)
            return 0;
        if (int.TryParse(setting.Value, NumberStyles.None, CultureInfo.InvariantCulture, out var days))
            return days;
        problems.Add(Codes.WrongSetting, setting.ValueSpot, $"\"{setting.Value}\" is not a number of days.", "Write a whole number, for example 30.");
        return 0;
    }

    static void ReportHolidaysEnd(Page page, ImmutableArray<Holiday> holidays, LocalDate? today, ProblemList problems)
    {
        if (today is not { } day)
            return;
        if (holidays.IsEmpty)
            problems.Add(Codes.HolidaysEnd, page.Settings.Spot, "There are no holidays, so no deadline can be worked out.", "Add a table \"holiday | name\" with the holidays of this year and the next.");
        else if (holidays.Max(h => h.Date).Year is var last && day.Year > last)
            problems.Add(Codes.HolidaysEnd, page.Tables.Last(t => t.Kind == "holiday").Spot, $"The holidays end with {last}, and it is {day.Year}: deadlines cannot be worked out.", $"Add the holidays of {day.Year} and of the next year.");
    }
}
