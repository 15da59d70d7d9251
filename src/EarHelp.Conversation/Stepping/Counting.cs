using EarHelp.Conversation.States;
using EarHelp.Triage.Facts;
using NodaTime;

namespace EarHelp.Conversation.Stepping;

/// <summary>
/// The number counted from a date, as the set of all it was from the first answer to now: so time alone never lowers a level.
/// </summary>
readonly struct Counting(DateTimeZone zone, Instant first, Instant now)
{
    public ValueSet Of(Fact fact, Said said)
    {
        var numbers = (FactValues.Numbers)fact.Values;
        var (least, greatest) = said switch
        {
            Said.Days days => (DaysBetween(days.To, Day(first)), DaysBetween(days.From, Day(now))),
            Said.Moments moments => (HoursBetween(moments.To, first), HoursBetween(moments.From, now)),
            _ => throw new System.Diagnostics.UnreachableException(),
        };
        return numbers.Between(Within(numbers, Math.Min(least, greatest)), Within(numbers, greatest));
    }

    LocalDate Day(Instant at) => at.InZone(zone).Date;

    static long DaysBetween(LocalDate from, LocalDate to) => Period.DaysBetween(from, to);

    /// <summary>Whole hours that have passed.</summary>
    static long HoursBetween(Instant from, Instant to) => (long)Math.Floor((to - from).TotalHours);

    static decimal Within(FactValues.Numbers numbers, long count) => Math.Clamp(count, numbers.From, numbers.To);
}
