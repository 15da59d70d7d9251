using System.Globalization;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.States;
using EarHelp.Triage.Facts;
using NodaTime;
using NodaTime.Text;

namespace EarHelp.Conversation.Stepping;

/// <summary>Reads the value of a chosen answer, or says what is wrong with it.</summary>
readonly struct AnswerReader(ServedEdition edition, Instant now)
{
    /// <summary>Either what was said, or what to say about it.</summary>
    public (Said? Said, Reply.Say? Fault) Read(int factIndex, AskedFact asked, string value)
    {
        var fact = edition.Dialog.Facts[factIndex];
        if (fact.Counted is { } counted)
            return ReadDate(fact, counted, value);
        if (fact.Values is FactValues.Numbers numbers)
            return ReadNumber(factIndex, numbers, value);
        foreach (var option in asked.Options)
        {
            if (string.Equals(option.Value, value, StringComparison.Ordinal))
                return (edition.SaidOf(factIndex, SetOf(fact, value)), null);
        }

        return (null, Sayings.NothingChosen);
    }

    /// <summary>The values that a written one stands for.</summary>
    public static ValueSet SetOf(Fact fact, string value) =>
        fact.Values.IndexOf(value) is { } index
            ? ValueSet.Of(index)
            : ValueSet.OfMany(value.Split(", ").Select(v => fact.Values.IndexOf(v) ?? 0));

    (Said?, Reply.Say?) ReadNumber(int fact, FactValues.Numbers numbers, string value)
    {
        if (ReadRange(value) is not { } range)
            return (null, Sayings.Plain("number not understood"));
        if (range.From < numbers.From || range.To > numbers.To)
            return (null, Sayings.OutOfRange(numbers.From, numbers.To));
        var set = numbers.Between(range.From, range.To);
        return set.IsEmpty || (range.From == range.To && numbers.IndexOf(range.From) is null)
            ? (null, Sayings.NotAStep(numbers.Step))
            : (edition.SaidOf(fact, set), null);
    }

    (Said?, Reply.Say?) ReadDate(Fact fact, CountedFromDate counted, string value)
    {
        var zone = edition.Edition.Clinic.Zone;
        var today = now.InZone(zone).Date;
        var numbers = (FactValues.Numbers)fact.Values;
        if (ReadRange(value) is { } ago)
        {
            if (ago.From < numbers.From || ago.To > numbers.To)
                return (null, Sayings.OutOfRange(numbers.From, numbers.To));
            return (counted.Unit == CountUnit.Days ? DaysAgo(today, ago.From, ago.To) : HoursAgo(ago.From, ago.To), null);
        }

        LocalDateTime? time = null;
        if (LocalDatePattern.Iso.Parse(value) is not { Success: true } read)
        {
            if (LocalDateTimePattern.GeneralIso.Parse(value) is { Success: true } whole)
                time = whole.Value;
            else if (LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-ddTHH:mm").Parse(value) is { Success: true } short_)
                time = short_.Value;
            else
                return (null, Sayings.DateNotUnderstood(today));
        }

        var date = time?.Date ?? LocalDatePattern.Iso.Parse(value).Value;
        if (date > today || (time is { } moment && zone.AtLeniently(moment).ToInstant() > now))
            return (null, Sayings.Plain("date in the future"));
        var earliest = EarliestDay(numbers, counted, today);
        if (date < earliest)
            return (null, Sayings.TooEarly(earliest));
        return (counted.Unit == CountUnit.Days ? new Said.Days(date, date) : MomentOf(date, time, zone), null);
    }

    static LocalDate EarliestDay(FactValues.Numbers numbers, CountedFromDate counted, LocalDate today)
    {
        var days = (int)(counted.Unit == CountUnit.Days ? numbers.To : numbers.To / NodaConstants.HoursPerDay);
        return today.PlusDays(-days);
    }

    static Said.Days DaysAgo(LocalDate today, decimal from, decimal to) =>
        new(today.PlusDays(-(int)decimal.Ceiling(to)), today.PlusDays(-(int)decimal.Floor(from)));

    /// <summary>"3 hours ago" is any moment from which three whole hours, and not yet four, have passed.</summary>
    Said.Moments HoursAgo(decimal from, decimal to) =>
        new(now - Duration.FromHours((int)decimal.Ceiling(to) + 1) + Duration.FromMilliseconds(1), now - Duration.FromHours((int)decimal.Floor(from)));

    Said.Moments MomentOf(LocalDate date, LocalDateTime? time, DateTimeZone zone)
    {
        if (time is { } moment)
        {
            var at = zone.AtLeniently(moment).ToInstant();
            return new Said.Moments(at, at);
        }

        var begins = zone.AtStartOfDay(date).ToInstant();
        var ends = zone.AtStartOfDay(date.PlusDays(1)).ToInstant() - Duration.FromMilliseconds(1);
        return new Said.Moments(begins, Instant.Min(ends, now));
    }

    static (decimal From, decimal To)? ReadRange(string value)
    {
        var dots = value.IndexOf("..", StringComparison.Ordinal);
        if (dots < 0)
            return Number(value) is { } only ? (only, only) : null;
        return Number(value.AsSpan(0, dots)) is { } from && Number(value.AsSpan(dots + 2)) is { } to && from <= to ? (from, to) : null;
    }

    static decimal? Number(ReadOnlySpan<char> text) =>
        decimal.TryParse(text, NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var number)
            ? number
            : null;
}
