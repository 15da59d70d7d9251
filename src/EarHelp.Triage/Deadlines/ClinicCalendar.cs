using System.Collections.Immutable;
using EarHelp.Triage.Editions;
using NodaTime;

namespace EarHelp.Triage.Deadlines;

/// <summary>When the clinic is open: weekly hours less closures and holidays, in its own time zone; and less what was closed at once.</summary>
/// <param name="closings">What was ever closed at once; null: nothing.</param>
public sealed class ClinicCalendar(Clinic clinic, Func<ImmutableArray<SuddenClosing>>? closings = null)
{
    readonly HashSet<LocalDate> _holidays = [.. clinic.Holidays.Select(h => h.Date)];

    /// <summary>The last day whose holidays are known: nothing is worked out past it.</summary>
    public LocalDate LastKnownDay { get; } =
        clinic.Holidays.IsEmpty ? LocalDate.MinIsoValue : new LocalDate(clinic.Holidays.Max(h => h.Date.Year), 12, 31);

    /// <summary>The earliest start, from now on, of a whole visit that ends before the limit; null if none fits.</summary>
    /// <param name="limit">The visit must end at or before it.</param>
    public Instant? FirstVisitBefore(Instant now, Instant limit)
    {
        var length = Duration.FromMinutes(clinic.VisitMinutes);
        var day = now.InZone(clinic.Zone).Date;
        var lastDay = limit.InZone(clinic.Zone).Date;
        if (lastDay > LastKnownDay)
            lastDay = LastKnownDay;
        for (; day <= lastDay; day = day.PlusDays(1))
        {
            foreach (var (opens, closes) in OpenOn(day, now))
            {
                var start = Instant.Max(opens, now);
                var end = start + length;
                if (end <= closes && end <= limit)
                    return start;
            }
        }

        return null;
    }

    /// <summary>The opening times of a day, as instants; the end is outside.</summary>
    /// <param name="now">The moment at which this is asked: what was closed at once is known from then on.</param>
    public IEnumerable<(Instant Opens, Instant Closes)> OpenOn(LocalDate day, Instant now)
    {
        if (_holidays.Contains(day) || clinic.Closures.Any(c => c.From <= day && day <= c.To) || ClosedAtOnce(now) is { } closed && day <= closed.LastDay)
            return [];
        return clinic.Open
            .Where(o => o.Day == day.DayOfWeek)
            .OrderBy(o => o.From)
            .Select(o => (ToInstant(day + o.From), ToInstant(day + o.To)));
    }

    /// <summary>The closing at once that is in force at a moment, the longest of several; null: there is none.</summary>
    public SuddenClosing? ClosedAtOnce(Instant now)
    {
        var today = now.InZone(clinic.Zone).Date;
        return (closings?.Invoke() ?? []).Where(c => c.IsInForce(now) && today <= c.LastDay).MaxBy(c => c.LastDay);
    }

    Instant ToInstant(LocalDateTime local) => clinic.Zone.AtLeniently(local).ToInstant();
}
