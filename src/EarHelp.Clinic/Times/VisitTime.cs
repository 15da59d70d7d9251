using NodaTime;

namespace EarHelp.Clinic.Times;

/// <summary>From when to when; the end is outside.</summary>
public readonly record struct VisitTime(Instant Start, Instant End)
{
    public bool Overlaps(VisitTime other) => Start < other.End && other.Start < End;
}
