using System.Collections.Immutable;
using EarHelp.Triage.Deadlines;
using NodaTime;

namespace EarHelp.Clinic.Times;

/// <summary>Finds times at which a whole visit fits: while somebody sees patients, is not busy, and before the limit.</summary>
public static class FreeTimes
{
    /// <param name="taken">Busy times and other people's visits, in any order.</param>
    /// <param name="length">Of the whole visit; longer than zero.</param>
    /// <param name="every">Visits start at the opening and every so often after it; longer than zero.</param>
    /// <param name="from">No visit starts earlier; not before now.</param>
    /// <param name="until">Every visit ends by then.</param>
    /// <returns>In order of time, each start once, with the first who is free then; lazily.</returns>
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
                foreach (var visit in calendar.SittingsOn(day, from).SelectMany(Within).OrderBy(v => v.Start).DistinctBy(v => v.Start))
                    yield return visit;
            }
        }

        IEnumerable<VisitTime> Within((Instant Opens, Instant Closes, string? By, string? Room) sitting)
        {
            for (var start = sitting.Opens; start + length <= sitting.Closes && start + length <= until; start += every)
            {
                var visit = new VisitTime(start, start + length) { By = sitting.By, Room = sitting.Room };
                if (start >= from && !taken.Any(visit.Overlaps))
                    yield return visit;
            }
        }
    }
}
