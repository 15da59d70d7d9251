using NodaTime;

namespace EarHelp.Clinic.Times;

/// <summary>From when to when; the end is outside.</summary>
public readonly record struct VisitTime(Instant Start, Instant End)
{
    /// <summary>Who sees the patient, as the clinic names them; null: nobody in particular.</summary>
    public string? By { get; init; }

    /// <summary>Null: no room in particular.</summary>
    public string? Room { get; init; }

    bool IsAnywhere => By is null && Room is null;

    /// <summary>True if both cannot be: at the same time by the same clinician, in the same room, or wherever one of them takes the whole clinic.</summary>
    public bool Overlaps(VisitTime other) => Start < other.End && other.Start < End
        && (IsAnywhere || other.IsAnywhere || (By is not null && By == other.By) || (Room is not null && Room == other.Room));
}
