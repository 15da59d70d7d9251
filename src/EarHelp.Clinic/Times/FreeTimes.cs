using System.Collections.Immutable;
using EarHelp.Triage.Deadlines;
using NodaTime;

namespace EarHelp.Clinic.Times;

/// <summary>Finds times at which a whole visit fits: while the clinic is open, not busy, and before the limit.</summary>
public static class FreeTimes
{
    /// <param name="taken">Busy times and other people's visits, in any order.</param>
    /// <param name="length">Of the whole visit; longer than zero.</param>
    /// <param name="every">Visits start at the opening and every so often after it; longer than zero.</param>
    /// <param name="from">No visit starts earlier; not before now.</param>
    /// <param name="until">Every visit ends by then.</param>
    /// <returns>In order of time, lazily.</returns>
    public static IEnumerable<VisitTime> Find(
        ClinicCalendar calendar, DateTimeZone zone, ImmutableArray<VisitTime> taken, Duration length, Duration every, Instant from, Instant until)
    {
        ArgumentNullException.ThrowIfNull(calendar);
        ArgumentNullException.ThrowIfNull(zone);
        if (length <= Duration.Zero || every <= Duration.Zero)
            throw new ArgumentOutOfRangeException(nameof(length), $"A visit of {length} every {every} cannot be planned: both must be longer than zero.");
        return Search();

        IEnumerable<VisitTime> Search()
        {
            var lastDay = LocalDate.Min(until.InZone(zone).Date, calendar.LastKnownDay);
            for (var day = from.InZone(zone).Date; day <= lastDay; day = day.PlusDays(1))
            {
                foreach (var (opens, closes) in calendar.OpenOn(day, from))
                {
                    for (var start = opens; start + length <= closes && start + length <= until; start += every)
                    {
                        var visit = new VisitTime(start, start + length);
                        if (start >= from && !taken.Any(visit.Overlaps))
                            yield return visit;
                    }
                }
            }
        }
    }
}
