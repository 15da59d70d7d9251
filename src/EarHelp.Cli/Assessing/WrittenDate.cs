using System.Text.Json;
using EarHelp.Triage.Facts;
using NodaTime;

namespace EarHelp.Cli.Assessing;

/// <summary>Reads dates as the number that is counted from them up to the moment of assessing.</summary>
public sealed class WrittenDate(Instant at, DateTimeZone zone)
{
    public ReadValue Read(Fact fact, CountedFromDate counted, JsonElement value) =>
        Span(value) is { } span ? Count(fact, counted, span) : NoDate(value);

    /// <param name="from">The earliest it may have been.</param>
    /// <param name="to">The latest.</param>
    public ReadValue ReadRange(Fact fact, CountedFromDate counted, JsonElement from, JsonElement to)
    {
        if (Span(from) is not { } first)
            return NoDate(from);
        if (Span(to) is not { } last)
            return NoDate(to);
        return first.Start <= last.Start
            ? Count(fact, counted, new Interval(first.Start, last.End))
            : ReadValue.Wrong($"the range from {from.GetRawText()} to {to.GetRawText()} holds nothing");
    }

    static ReadValue NoDate(JsonElement value) =>
        ReadValue.Wrong($"{value.GetRawText()} is not a date such as \"2026-11-20\" or a moment such as \"2026-11-20T08:30\"");

    ReadValue Count(Fact fact, CountedFromDate counted, Interval span)
    {
        if (span.Start > at)
            return ReadValue.Wrong("it lies after the moment of assessing");
        var latest = Instant.Min(span.End - Duration.Epsilon, at);
        latest = Instant.Max(latest, span.Start);
        var (least, most) = counted.Unit == CountUnit.Days
            ? (DaysUpTo(latest), DaysUpTo(span.Start))
            : (HoursUpTo(latest), HoursUpTo(span.Start));
        var values = (FactValues.Numbers)fact.Values;
        if (most > values.To || least < values.From)
            return ReadValue.Wrong($"it is {most} {values.Unit} ago, and {counted.NumberId} goes from {values.From} to {values.To}");
        return ReadValue.Of(values.Between(least, most), span.Start);
    }

    int DaysUpTo(Instant moment) =>
        Period.Between(moment.InZone(zone).Date, at.InZone(zone).Date, PeriodUnits.Days).Days;

    int HoursUpTo(Instant moment) => (int)Math.Floor((at - moment).TotalHours);

    /// <summary>What a written date or moment covers: a whole day at the clinic, or one instant.</summary>
    Interval? Span(JsonElement value)
    {
        if (value.ValueKind != JsonValueKind.String)
            return null;
        var written = value.GetString()!;
        if (WrittenTime.Day(written) is { } day)
            return new Interval(zone.AtStartOfDay(day).ToInstant(), zone.AtStartOfDay(day.PlusDays(1)).ToInstant());
        return WrittenTime.Moment(written, zone) is { } moment ? new Interval(moment, moment) : null;
    }
}
