using System.Collections.Immutable;
using NodaTime;

namespace EarHelp.Clinic.Times;

/// <summary>When the clinic is busy with what is not asked for on these pages.</summary>
public interface IBusyTimes
{
    /// <returns>Every busy time that overlaps the span, with the place that it names as its room; null: nobody can tell now, and no time may be offered.</returns>
    ValueTask<ImmutableArray<VisitTime>?> BetweenAsync(Instant from, Instant until, DateTimeZone zone, CancellationToken cancellation);
}
