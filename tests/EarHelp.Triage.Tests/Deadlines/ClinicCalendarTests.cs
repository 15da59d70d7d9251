using System.Collections.Immutable;
using EarHelp.Triage.Deadlines;
using EarHelp.Triage.Editions;
using NodaTime;

namespace EarHelp.Triage.Tests.Deadlines;

public sealed class ClinicCalendarTests
{
    static readonly DateTimeZone London = DateTimeZoneProviders.Tzdb["Europe/London"];

    [Fact]
    public void Finds_the_first_start_at_which_a_whole_visit_fits_before_the_limit()
    {
        var calendar = new ClinicCalendar(Some.Clinic());
        var mondayEvening = At(2026, 3, 2, 18, 0);

        var visit = calendar.FirstVisitBefore(mondayEvening, mondayEvening + Duration.FromHours(24));

        Assert.Equal(At(2026, 3, 3, 9, 0), visit);
    }

    [Fact]
    public void Has_no_visit_if_the_limit_comes_one_minute_before_the_visit_would_end()
    {
        var calendar = new ClinicCalendar(Some.Clinic());
        var beforeOpening = At(2026, 3, 3, 8, 0);

        Assert.Equal(At(2026, 3, 3, 9, 0), calendar.FirstVisitBefore(beforeOpening, At(2026, 3, 3, 9, 40)));
        Assert.Null(calendar.FirstVisitBefore(beforeOpening, At(2026, 3, 3, 9, 39)));
    }

    [Fact]
    public void Does_not_start_a_visit_that_would_end_after_closing()
    {
        var calendar = new ClinicCalendar(Some.Clinic());
        var nearClosing = At(2026, 3, 3, 16, 30);

        Assert.Null(calendar.FirstVisitBefore(nearClosing, At(2026, 3, 3, 23, 0)));
    }

    [Fact]
    public void Is_shut_on_holidays_and_closures()
    {
        var clinic = Some.Clinic() with
        {
            Holidays = [new Holiday(new LocalDate(2026, 4, 6), "a holiday")],
            Closures = [new Closure(new LocalDate(2026, 4, 7), new LocalDate(2026, 4, 8), "painting")],
        };

        var visit = new ClinicCalendar(clinic).FirstVisitBefore(At(2026, 4, 6, 8, 0), At(2026, 4, 20, 0, 0));

        Assert.Equal(At(2026, 4, 9, 9, 0), visit);
    }

    [Fact]
    public void Works_nothing_out_past_the_last_known_holiday_year() =>
        Assert.Null(new ClinicCalendar(Some.Clinic()).FirstVisitBefore(At(2030, 1, 7, 8, 0), At(2030, 1, 9, 8, 0)));

    /// <remarks>In 2026 the clocks of Europe/London go forward on 29 March at 01:00 and back on 25 October at 02:00 (IANA time zone database).</remarks>
    [Fact]
    public void Opens_at_nine_by_the_wall_clock_on_both_sides_of_a_clock_change()
    {
        var calendar = new ClinicCalendar(Some.Clinic());

        Assert.Equal(Instant.FromUtc(2026, 3, 27, 9, 0), calendar.FirstVisitBefore(At(2026, 3, 27, 1, 0), At(2026, 3, 28, 0, 0)));
        Assert.Equal(Instant.FromUtc(2026, 3, 30, 8, 0), calendar.FirstVisitBefore(At(2026, 3, 28, 1, 0), At(2026, 4, 1, 0, 0)));
    }

    [Fact]
    public void Counts_hours_as_elapsed_time_and_days_by_the_calendar_over_a_clock_change()
    {
        var beforeTheChange = At(2026, 3, 28, 12, 0);

        Assert.Equal(At(2026, 3, 29, 13, 0), Deadline.After(beforeTheChange, Period.FromHours(24), London));
        Assert.Equal(At(2026, 3, 29, 12, 0), Deadline.After(beforeTheChange, Period.FromDays(1), London));
        Assert.Equal(At(2026, 4, 11, 12, 0), Deadline.After(beforeTheChange, Period.FromWeeks(2), London));
    }

    [Fact]
    public void What_was_closed_at_once_is_closed_from_that_moment_to_the_end_of_its_last_day_and_not_before_it_was_known()
    {
        var set = At(2026, 3, 3, 10, 0);
        var calendar = new ClinicCalendar(Some.Clinic(), () => [new SuddenClosing(set, new LocalDate(2026, 3, 4), null)]);

        Assert.Equal(At(2026, 3, 3, 10, 0) - Duration.FromMinutes(1), calendar.FirstVisitBefore(set - Duration.FromMinutes(1), At(2026, 3, 5, 23, 0)));
        Assert.Equal(At(2026, 3, 5, 9, 0), calendar.FirstVisitBefore(set, At(2026, 3, 5, 23, 0)));
        Assert.Null(calendar.FirstVisitBefore(set, At(2026, 3, 4, 23, 0)));
        Assert.Null(calendar.ClosedAtOnce(At(2026, 3, 5, 0, 0)));
    }

    [Fact]
    public void A_closing_that_was_lifted_counts_no_more_from_then_on()
    {
        var set = At(2026, 3, 3, 10, 0);
        var lifted = set + Duration.FromHours(1);
        var calendar = new ClinicCalendar(Some.Clinic(), () => [new SuddenClosing(set, new LocalDate(2026, 3, 4), lifted)]);

        Assert.NotNull(calendar.ClosedAtOnce(lifted - Duration.FromMinutes(1)));
        Assert.Null(calendar.ClosedAtOnce(lifted));
        Assert.Equal(lifted, calendar.FirstVisitBefore(lifted, At(2026, 3, 4, 23, 0)));
    }

    static Instant At(int year, int month, int day, int hour, int minute) =>
        London.AtStrictly(new LocalDateTime(year, month, day, hour, minute)).ToInstant();
}
