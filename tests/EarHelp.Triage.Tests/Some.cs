using EarHelp.Triage.Editions;
using NodaTime;

namespace EarHelp.Triage.Tests;

/// <summary>Values that do not matter to a test.</summary>
static class Some
{
    /// <summary>Open on working days from nine to five, a visit takes forty minutes, one holiday known in 2028.</summary>
    public static Clinic Clinic() =>
        new(
            "Some clinic",
            "Sometown",
            "Somewhere",
            "1 Some Street",
            DateTimeZoneProviders.Tzdb["Europe/London"],
            "000",
            "001",
            "some@example.org",
            "002",
            40,
            "999",
            "text",
            "003",
            "004",
            [.. Enumerable.Range(1, 5).Select(d => new OpenHours((IsoDayOfWeek)d, new LocalTime(9, 0), new LocalTime(17, 0)))],
            [],
            [new Holiday(new LocalDate(2028, 12, 25), "a holiday")],
            ["microsuction"]);
}
