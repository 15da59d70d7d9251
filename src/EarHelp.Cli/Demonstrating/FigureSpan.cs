using NodaTime;

namespace EarHelp.Cli.Demonstrating;

/// <summary>The part of the week in which nearly everything happens, inside one month at the clinic.</summary>
readonly record struct FigureSpan(Instant From, Instant To)
{
    /// <summary>Shorter than a week: unfinished conversations are swept after that.</summary>
    const int Hours = 150;

    const int DayHours = 25;

    public static FigureSpan Before(Instant end, DateTimeZone zone)
    {
        var from = end - Whole(Hours);
        var month = zone.AtStartOfDay(end.InZone(zone).Date.With(DateAdjusters.StartOfMonth)).ToInstant();
        return from >= month ? new FigureSpan(from, end)
            : end - month >= Whole(DayHours + DayHours) ? new FigureSpan(month, end)
            : new FigureSpan(from, month);
    }

    /// <summary>What was left by then counts as left: nobody came back for a day.</summary>
    public FigureSpan UntilDayBefore(Instant end) => this with { To = Instant.Max(From, Instant.Min(To, end - Whole(DayHours))) };

    public Instant At(Random random)
    {
        ArgumentNullException.ThrowIfNull(random);
        return From + ((To - From) * random.NextDouble());
    }

    static Duration Whole(int hours) => Duration.FromHours(1) * hours;
}
