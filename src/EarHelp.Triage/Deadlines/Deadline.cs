using NodaTime;

namespace EarHelp.Triage.Deadlines;

/// <summary>Turns a level's limit into an instant.</summary>
public static class Deadline
{
    /// <summary>The end of the limit.</summary>
    /// <param name="from">The moment from which the limit runs.</param>
    /// <param name="within">Hours and minutes are elapsed time; days and weeks are calendar days in <paramref name="zone"/>.</param>
    public static Instant After(Instant from, Period within, DateTimeZone zone)
    {
        ArgumentNullException.ThrowIfNull(within);
        var days = within.Days + (within.Weeks * 7);
        var start = days == 0
            ? from
            : zone.AtLeniently(from.InZone(zone).LocalDateTime.PlusDays(days)).ToInstant();
        return start + Duration.FromHours(within.Hours) + Duration.FromMinutes(within.Minutes);
    }
}
