using NodaTime;
using NodaTime.Text;

namespace EarHelp.Cli.Assessing;

/// <summary>ISO 8601 days and moments.</summary>
public static class WrittenTime
{
    static readonly LocalDateTimePattern ToTheMinute = LocalDateTimePattern.CreateWithInvariantCulture("uuuu'-'MM'-'dd'T'HH':'mm");

    static readonly OffsetDateTimePattern ToTheMinuteWithOffset =
        OffsetDateTimePattern.CreateWithInvariantCulture("uuuu'-'MM'-'dd'T'HH':'mmo<G>");

    public static LocalDate? Day(string written) => Parsed(LocalDatePattern.Iso.Parse(written));

    /// <summary>An instant with its offset, or a local time in the zone: one that a clock change skips or repeats is read leniently.</summary>
    public static Instant? Moment(string written, DateTimeZone zone)
    {
        ArgumentNullException.ThrowIfNull(zone);
        if (Parsed(OffsetDateTimePattern.ExtendedIso.Parse(written)) is { } withOffset)
            return withOffset.ToInstant();
        if (Parsed(ToTheMinuteWithOffset.Parse(written)) is { } shorter)
            return shorter.ToInstant();
        var local = Parsed(LocalDateTimePattern.ExtendedIso.Parse(written)) ?? Parsed(ToTheMinute.Parse(written));
        return local is { } time ? zone.AtLeniently(time).ToInstant() : null;
    }

    static T? Parsed<T>(ParseResult<T> result)
        where T : struct =>
        result.TryGetValue(default, out var value) ? value : null;
}
