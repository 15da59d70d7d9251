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
            var first = SittingsOn(day, now).Select(s => (Start: Instant.Max(s.Opens, now), s.Closes)).Where(s => s.Start + length <= s.Closes && s.Start + length <= limit)
                .Select(s => (Instant?)s.Start).Min();
            if (first is not null)
                return first;
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

    /// <summary>When patients are seen on a day, by whom and in which room: who begins first stands first. Null of both: a clinic that does not say.</summary>
    /// <param name="now">As for <see cref="OpenOn"/>.</param>
    public IEnumerable<(Instant Opens, Instant Closes, string? By, string? Room)> SittingsOn(LocalDate day, Instant now)
    {
        var open = OpenOn(day, now);
        return clinic.Sittings.IsEmpty
            ? open.Select(o => (o.Opens, o.Closes, (string?)null, (string?)null))
            : open.SelectMany(o => clinic.Sittings.Where(s => s.Day == day.DayOfWeek)
                .Select(s => (Opens: Instant.Max(o.Opens, ToInstant(day + s.From)), Closes: Instant.Min(o.Closes, ToInstant(day + s.To)), (string?)s.By, (string?)s.Room)))
                .Where(s => s.Opens < s.Closes).OrderBy(s => s.Opens);
    }

    /// <summary>The closing at once that is in force at a moment, the longest of several; null: there is none.</summary>
    public SuddenClosing? ClosedAtOnce(Instant now)
    {
        var today = now.InZone(clinic.Zone).Date;
        return (closings?.Invoke() ?? []).Where(c => c.IsInForce(now) && today <= c.LastDay).MaxBy(c => c.LastDay);
    }

    Instant ToInstant(LocalDateTime local) => clinic.Zone.AtLeniently(local).ToInstant();
}
