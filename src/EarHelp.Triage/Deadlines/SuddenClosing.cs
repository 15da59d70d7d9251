using NodaTime;

namespace EarHelp.Triage.Deadlines;

/// <summary>That the clinic closed from one moment on to a day. It is never forgotten, so that what was decided then comes out again.</summary>
/// <param name="SetAt">The clinic is closed, and this is known, from then on.</param>
/// <param name="LastDay">Inside, at the clinic.</param>
/// <param name="LiftedAt">From then on it counts no more; null: it runs its course.</param>
public sealed record SuddenClosing(Instant SetAt, LocalDate LastDay, Instant? LiftedAt)
{
    public bool IsInForce(Instant now) => SetAt <= now && (LiftedAt is not { } lifted || now < lifted);
}
