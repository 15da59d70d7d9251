using NodaTime;

namespace EarHelp.Clinic.Times;

/// <summary>A time that is kept for somebody while they look at it once more.</summary>
/// <param name="Until">From then on anybody may have it.</param>
public sealed record HeldTime(VisitTime Time, Instant Until)
{
    public bool IsHeld(Instant now) => now < Until;
}
