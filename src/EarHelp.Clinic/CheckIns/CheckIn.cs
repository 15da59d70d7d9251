using System.Collections.Immutable;
using System.Globalization;
using EarHelp.Clinic.Visits;
using EarHelp.Triage.Editions;
using NodaTime;

namespace EarHelp.Clinic.CheckIns;

/// <summary>One day after a visit on which the patient is asked how it is.</summary>
/// <param name="Day">Whole days after the day of the visit.</param>
/// <param name="From">From then on an answer is asked for.</param>
/// <param name="Until">The end, which is outside: the next one begins, or silence is noted.</param>
public sealed record CheckIn(int Day, Instant From, Instant Until)
{
    public DueMessage Message => new(MessageKind.AfterVisit, string.Create(CultureInfo.InvariantCulture, $"day {Day}"), From, Until);

    public bool IsOpen(Instant now) => From <= now && now < Until;

    /// <summary>In order. The last one stays open for as many days as lie between it and the one before, or the visit.</summary>
    public static ImmutableArray<CheckIn> After(Edition edition, Visit visit)
    {
        ArgumentNullException.ThrowIfNull(edition);
        ArgumentNullException.ThrowIfNull(visit);
        var days = edition.Clinic.CheckInDays;
        if (days.IsEmpty)
            return [];
        var visited = visit.At.InZone(edition.Clinic.Zone).Date;
        Instant Moment(int day) => edition.Clinic.Zone.AtLeniently(visited.PlusDays(day) + edition.Clinic.MessagesFrom).ToInstant();
        var ends = days.Skip(1).Append(days[^1] + days[^1] - days.Prepend(0).ElementAt(days.Length - 1));
        return [.. days.Zip(ends, (day, end) => new CheckIn(day, Moment(day), Moment(end)))];
    }

    /// <summary>False outside the hours in which the clinic sends messages.</summary>
    public static bool MayDisturb(Edition edition, Instant now)
    {
        ArgumentNullException.ThrowIfNull(edition);
        var time = now.InZone(edition.Clinic.Zone).TimeOfDay;
        return edition.Clinic.MessagesFrom <= time && time < edition.Clinic.MessagesTo;
    }
}
