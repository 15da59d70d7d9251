using System.Collections.Immutable;
using EarHelp.Clinic.Times;
using EarHelp.Triage.Deadlines;
using EarHelp.Triage.Editions;
using NodaTime;

namespace EarHelp.Clinic.Tests.Times;

public sealed class FreeTimesTests
{
    static readonly DateTimeZone London = DateTimeZoneProviders.Tzdb["Europe/London"];

    /// <summary>Open on Mondays from 9 to 10 and from 11 to 12, on Sundays from 0 to 4; closed on 7 December 2026; Christmas is a holiday.</summary>
    static readonly Triage.Editions.Clinic Small = new(
        "C", "T", "N", "A", London, "1", "2", "e", "r", 30, "999", "text", "3", "text",
        [
            new OpenHours(IsoDayOfWeek.Monday, new LocalTime(9, 0), new LocalTime(10, 0)),
            new OpenHours(IsoDayOfWeek.Monday, new LocalTime(11, 0), new LocalTime(12, 0)),
            new OpenHours(IsoDayOfWeek.Sunday, new LocalTime(0, 0), new LocalTime(4, 0)),
        ],
        [new Closure(new LocalDate(2026, 12, 7), new LocalDate(2026, 12, 7), "painting")],
        [new Holiday(new LocalDate(2026, 12, 25), "Christmas"), new Holiday(new LocalDate(2027, 12, 25), "Christmas")],
        []);

    static readonly ClinicCalendar Calendar = new(Small);

    /// <summary>On Mondays one sees patients in both hours, another one only from 9:30 to 10.</summary>
    static readonly ClinicCalendar WithTwo = new(Small with
    {
        Sittings =
        [
            new Sitting("Quill", "2", IsoDayOfWeek.Monday, new LocalTime(9, 30), new LocalTime(10, 0)),
            new Sitting("Adair", "1", IsoDayOfWeek.Monday, new LocalTime(9, 0), new LocalTime(10, 0)),
            new Sitting("Adair", "1", IsoDayOfWeek.Monday, new LocalTime(11, 0), new LocalTime(12, 0)),
        ],
    });

    static readonly Instant Monday = At(2026, 11, 30, 0, 0);

    [Fact]
    public void Fills_the_opening_hours_with_whole_visits_at_every_step()
    {
        Assert.Equal(["9:00", "9:15", "9:30", "11:00", "11:15", "11:30"], Starts(Monday, At(2026, 11, 30, 23, 0)));
    }

    [Fact]
    public void A_visit_ends_by_the_limit_to_the_minute()
    {
        Assert.Equal(["9:00"], Starts(Monday, At(2026, 11, 30, 9, 30)));
        Assert.Empty(Starts(Monday, At(2026, 11, 30, 9, 30) - Duration.Epsilon));
    }

    [Fact]
    public void No_visit_starts_before_the_first_moment_that_is_asked_for()
    {
        Assert.Equal("9:15", Starts(At(2026, 11, 30, 9, 15), At(2026, 11, 30, 23, 0))[0]);
        Assert.Equal("9:30", Starts(At(2026, 11, 30, 9, 15) + Duration.Epsilon, At(2026, 11, 30, 23, 0))[0]);
    }

    [Fact]
    public void What_is_taken_is_left_out_and_what_only_touches_it_is_not()
    {
        var taken = new VisitTime(At(2026, 11, 30, 9, 30), At(2026, 11, 30, 11, 15));

        Assert.Equal(["9:00", "11:15", "11:30"], Starts(Monday, At(2026, 11, 30, 23, 0), taken));
    }

    [Fact]
    public void Each_start_comes_once_with_the_first_who_is_free_then()
    {
        VisitTime atHalfPast = new(At(2026, 11, 30, 9, 30), At(2026, 11, 30, 10, 0));

        Assert.Equal(["9:00 Adair", "9:15 Adair", "9:30 Adair"], WithWhom());
        Assert.Equal(["9:00 Adair", "9:30 Quill"], WithWhom(atHalfPast with { By = "Adair", Room = "1" }));
        Assert.Equal(["9:30 Quill"], WithWhom((atHalfPast with { By = "Adair", Room = "1" }), new VisitTime(At(2026, 11, 30, 9, 0), At(2026, 11, 30, 9, 15)) { Room = "1" }));
        Assert.Equal(["9:00 Adair"], WithWhom(atHalfPast));
        Assert.Equal(["9:00 Adair"], WithWhom(atHalfPast with { By = "Adair", Room = "1" }, atHalfPast with { By = "Moss", Room = "2" }));

        static IEnumerable<string> WithWhom(params ImmutableArray<VisitTime> taken) =>
            FreeTimes.Find(WithTwo, London, taken, Duration.FromMinutes(30), Duration.FromMinutes(15), Monday, At(2026, 11, 30, 10, 30)).Select(t => $"{Local(t)} {t.By}");
    }

    [Fact]
    public void The_clinic_can_only_while_somebody_sees_patients()
    {
        var early = new ClinicCalendar(Small with { Sittings = [new Sitting("Quill", "2", IsoDayOfWeek.Monday, new LocalTime(9, 30), new LocalTime(10, 0))] });

        Assert.Equal(At(2026, 11, 30, 9, 0), Calendar.FirstVisitBefore(Monday, At(2026, 11, 30, 10, 0)));
        Assert.Equal(At(2026, 11, 30, 9, 30), early.FirstVisitBefore(Monday, At(2026, 11, 30, 10, 0)));
        Assert.Null(early.FirstVisitBefore(Monday, At(2026, 11, 30, 9, 59)));
    }

    [Fact]
    public void On_a_closed_day_there_is_none_and_the_week_after_there_is()
    {
        var found = Find(At(2026, 12, 7, 0, 0), At(2026, 12, 15, 0, 0), 30).Select(t => t.Start.InZone(London).Date).Distinct().ToArray();

        Assert.Equal([new LocalDate(2026, 12, 13), new LocalDate(2026, 12, 14)], found);
    }

    /// <summary>On 28 March 2027 the hour from 1 to 2 is left out (the last Sunday of March; rule of the European zones).</summary>
    [Fact]
    public void On_the_night_when_the_clocks_go_forward_an_hour_is_missing()
    {
        var found = Find(At(2027, 3, 28, 0, 0), At(2027, 3, 28, 12, 0), 60).ToArray();

        Assert.Equal(Duration.FromHours(3), found[^1].End - found[0].Start);
        Assert.Equal(["0:00", "0:15", "0:30", "0:45", "2:00", "2:15", "2:30", "2:45", "3:00"], found.Select(Local));
    }

    /// <summary>On 31 October 2027 the hour from 1 to 2 comes twice.</summary>
    [Fact]
    public void On_the_night_when_the_clocks_go_back_an_hour_comes_twice_and_no_time_is_offered_twice()
    {
        var found = Find(At(2027, 10, 31, 0, 0), At(2027, 10, 31, 12, 0), 60).ToArray();

        Assert.Equal(Duration.FromHours(5), found[^1].End - found[0].Start);
        Assert.Equal(found.Length, found.Select(t => t.Start).Distinct().Count());
    }

    [Fact]
    public void Past_the_last_known_holiday_nothing_is_offered()
    {
        Assert.Empty(Find(At(2028, 1, 1, 0, 0), At(2028, 3, 1, 0, 0), 30));
    }

    static string[] Starts(Instant from, Instant until, params ImmutableArray<VisitTime> taken) => [.. Find(from, until, 30, taken).Select(Local)];

    static IEnumerable<VisitTime> Find(Instant from, Instant until, int minutes, params ImmutableArray<VisitTime> taken) =>
        FreeTimes.Find(Calendar, London, taken, Duration.FromMinutes(minutes), Duration.FromMinutes(15), from, until);

    static string Local(VisitTime time) => time.Start.InZone(London).ToString("H:mm", System.Globalization.CultureInfo.InvariantCulture);

    static Instant At(int year, int month, int day, int hour, int minute) =>
        London.AtLeniently(new LocalDateTime(year, month, day, hour, minute)).ToInstant();
}
