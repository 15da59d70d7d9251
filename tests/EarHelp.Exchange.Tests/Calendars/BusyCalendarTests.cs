using System.Collections.Immutable;
using EarHelp.Clinic.Times;
using EarHelp.Exchange.Calendars;
using NodaTime;

namespace EarHelp.Exchange.Tests.Calendars;

/// <summary>Each case says what RFC 5545 says of it; expected instants were worked out by hand.</summary>
public sealed class BusyCalendarTests
{
    static readonly DateTimeZone London = DateTimeZoneProviders.Tzdb["Europe/London"];

    [Fact]
    public void An_event_in_UTC_is_busy_from_its_start_to_its_end()
    {
        var busy = Read("DTSTART:20261130T100000Z\nDTEND:20261130T110000Z");

        Assert.Equal([new VisitTime(Utc(11, 30, 10), Utc(11, 30, 11))], busy.ToArray());
    }

    /// <summary>RFC 5545, 3.8.1.7.</summary>
    [Fact]
    public void The_place_of_an_event_is_its_room()
    {
        Assert.Equal(["2"], Read("DTSTART:20261130T100000Z\nDTEND:20261130T110000Z\nLOCATION: 2").Select(b => b.Room));
        Assert.Equal([null], Read("DTSTART:20261130T100000Z\nDTEND:20261130T110000Z\nLOCATION:").Select(b => b.Room));
    }

    [Fact]
    public void A_duration_stands_in_the_place_of_an_end()
    {
        Assert.Equal([new VisitTime(Utc(11, 30, 10), Utc(11, 30, 11).Plus(Duration.FromMinutes(30)))], Read("DTSTART:20261130T100000Z\nDURATION:PT1H30M").ToArray());
    }

    [Fact]
    public void A_whole_day_is_the_clinics_own_day_and_its_end_is_outside()
    {
        var busy = Read("DTSTART;VALUE=DATE:20270328\nDTEND;VALUE=DATE:20270329", new LocalDate(2027, 3, 1), new LocalDate(2027, 4, 30));

        // The clocks go forward on 28 March 2027, the last Sunday of the month: that day has 23 hours.
        Assert.Equal([new VisitTime(Instant.FromUtc(2027, 3, 28, 0, 0), Instant.FromUtc(2027, 3, 28, 23, 0))], busy.ToArray());
    }

    [Fact]
    public void A_whole_day_without_an_end_is_one_day()
    {
        Assert.Equal([new VisitTime(Utc(11, 30, 0), Utc(12, 1, 0))], Read("DTSTART;VALUE=DATE:20261130").ToArray());
    }

    [Fact]
    public void A_time_without_a_zone_is_the_clinics_own()
    {
        var busy = Read("DTSTART:20260701T090000\nDTEND:20260701T100000", new LocalDate(2026, 6, 1), new LocalDate(2026, 8, 1));

        Assert.Equal([new VisitTime(Instant.FromUtc(2026, 7, 1, 8, 0), Instant.FromUtc(2026, 7, 1, 9, 0))], busy.ToArray());
    }

    [Fact]
    public void A_time_in_another_zone_is_read_in_that_zone()
    {
        var busy = Read("DTSTART;TZID=America/New_York:20261130T090000\nDTEND;TZID=America/New_York:20261130T093000");

        Assert.Equal([new VisitTime(Utc(11, 30, 14), Utc(11, 30, 14).Plus(Duration.FromMinutes(30)))], busy.ToArray());
    }

    [Fact]
    public void A_weekly_event_keeps_its_local_time_over_the_change_of_the_clocks()
    {
        var busy = Read(
            "DTSTART;TZID=Europe/London:20261012T090000\nDTEND;TZID=Europe/London:20261012T100000\nRRULE:FREQ=WEEKLY;COUNT=4",
            new LocalDate(2026, 10, 1), new LocalDate(2026, 11, 30));

        // The clocks go back on 25 October 2026: 9 o'clock is 8 UTC before it and 9 UTC after it.
        Assert.Equal([8, 8, 9, 9], busy.Select(b => b.Start.InUtc().Hour));
        Assert.Equal([12, 19, 26, 2], busy.Select(b => b.Start.InUtc().Day));
    }

    [Fact]
    public void A_recurring_event_leaves_out_its_exceptions_and_moves_what_was_moved()
    {
        var busy = Read(
            "UID:same\nDTSTART:20261130T100000Z\nDTEND:20261130T110000Z\nRRULE:FREQ=DAILY;COUNT=4\nEXDATE:20261201T100000Z\nEND:VEVENT\n"
            + "BEGIN:VEVENT\nUID:same\nDTSTAMP:20261101T000000Z\nRECURRENCE-ID:20261202T100000Z\nDTSTART:20261202T150000Z\nDTEND:20261202T160000Z");

        Assert.Equal([(30, 10), (2, 15), (3, 10)], busy.Select(b => (b.Start.InUtc().Day, b.Start.InUtc().Hour)).ToArray());
    }

    [Fact]
    public void Dates_that_are_added_to_an_event_are_busy_too()
    {
        var busy = Read("DTSTART:20261130T100000Z\nDTEND:20261130T110000Z\nRDATE:20261204T100000Z,20261205T120000Z");

        Assert.Equal([(30, 10), (4, 10), (5, 12)], busy.Select(b => (b.Start.InUtc().Day, b.Start.InUtc().Hour)).ToArray());
    }

    [Fact]
    public void An_endless_rule_is_followed_only_as_far_as_is_asked()
    {
        var busy = Read("DTSTART:20200101T120000Z\nDTEND:20200101T130000Z\nRRULE:FREQ=DAILY", new LocalDate(2026, 11, 1), new LocalDate(2026, 11, 8));

        Assert.Equal(7, busy.Length);
    }

    [Fact]
    public void An_event_that_began_long_before_still_reaches_into_the_span()
    {
        Assert.Single(Read("DTSTART;VALUE=DATE:20260901\nDTEND;VALUE=DATE:20270115"));
    }

    [Theory]
    [InlineData("TRANSP:TRANSPARENT")]
    [InlineData("STATUS:CANCELLED")]
    public void What_takes_no_time_or_is_cancelled_is_free(string line)
    {
        Assert.Empty(Read($"DTSTART:20261130T100000Z\nDTEND:20261130T110000Z\n{line}"));
        Assert.Single(Read("DTSTART:20261130T100000Z\nDTEND:20261130T110000Z\nSTATUS:TENTATIVE"));
    }

    [Fact]
    public void A_published_list_of_busy_times_is_read_too()
    {
        var busy = BusyCalendar.Read(
            Whole("BEGIN:VFREEBUSY\nUID:f\nDTSTAMP:20261101T000000Z\nDTSTART:20261101T000000Z\nDTEND:20261231T000000Z\n"
                + "FREEBUSY;FBTYPE=BUSY:20261130T100000Z/2026\n 1130T110000Z\nFREEBUSY;FBTYPE=FREE:20261201T100000Z/PT1H\n"
                + "FREEBUSY;FBTYPE=BUSY-UNAVAILABLE:20261202T100000Z/PT2H,20261203T100000Z/PT30M\nEND:VFREEBUSY"),
            Utc(11, 1, 0), Utc(12, 31, 0), London);

        Assert.Equal([new VisitTime(Utc(11, 30, 10), Utc(11, 30, 11)), new VisitTime(Utc(12, 2, 10), Utc(12, 2, 12)), new VisitTime(Utc(12, 3, 10), Utc(12, 3, 10).Plus(Duration.FromMinutes(30)))], busy.ToArray());
    }

    [Fact]
    public void A_folded_line_is_one_line_and_a_line_end_may_be_of_either_kind()
    {
        const string folded = "DTSTART:20261130T1000\r\n 00Z\r\nDTEND:20261130T110000Z\r\nSUMMARY:Meeting \\, all \r\n\tof us";

        Assert.Equal([new VisitTime(Utc(11, 30, 10), Utc(11, 30, 11))], Read(folded).ToArray());
    }

    [Theory]
    [InlineData("")]
    [InlineData("<html>please sign in</html>")]
    [InlineData("BEGIN:VCALENDAR\r\nVERSION:2.0\r\nBEGIN:VEVENT\r\nDTSTART:20261130T100000Z\r\n")]
    [InlineData("BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\nUID:x\r\nDTSTART:never\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n")]
    [InlineData("BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\nUID:x\r\nDTSTART:20261130T100000Z\r\nDTEND:whenever\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n")]
    [InlineData("BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\nUID:x\r\nDTSTART:20261130T100000Z\r\nDURATION:P1Q\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n")]
    [InlineData("BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\nUID:x\r\nSUMMARY:no start\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n")]
    [InlineData("BEGIN:VCALENDAR\r\nBEGIN:VFREEBUSY\r\nUID:x\r\nFREEBUSY:20261130T100000Z\r\nEND:VFREEBUSY\r\nEND:VCALENDAR\r\n")]
    [InlineData("BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\nUID:x\r\nDTSTART;TZID=Nowhere/Known:20261130T100000\r\nDTEND;TZID=Nowhere/Known:20261130T110000\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n")]
    [InlineData("BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\nUID:x\r\nDTSTART:20261130T100000Z\r\nRRULE:FREQ=SOMETIMES\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n")]
    public void What_cannot_be_read_whole_is_refused_so_that_no_busy_time_is_offered(string text)
    {
        Assert.Throws<CalendarUnreadableException>(() => BusyCalendar.Read(text, Utc(11, 1, 0), Utc(12, 31, 0), London));
    }

    static ImmutableArray<VisitTime> Read(string lines, LocalDate? from = null, LocalDate? until = null) => BusyCalendar.Read(
        Whole($"BEGIN:VEVENT\nDTSTAMP:20261101T000000Z\n{(lines.StartsWith("UID", StringComparison.Ordinal) ? "" : "UID:u\n")}{lines}\nEND:VEVENT"),
        London.AtStartOfDay(from ?? new LocalDate(2026, 11, 1)).ToInstant(),
        London.AtStartOfDay(until ?? new LocalDate(2026, 12, 31)).ToInstant(),
        London);

    static string Whole(string part) =>
        $"BEGIN:VCALENDAR\nVERSION:2.0\nPRODID:-//Test//EN\n{part}\nEND:VCALENDAR\n".Replace("\r\n", "\n", StringComparison.Ordinal).Replace("\n", "\r\n", StringComparison.Ordinal);

    static Instant Utc(int month, int day, int hour) => Instant.FromUtc(2026, month, day, hour, 0);
}
