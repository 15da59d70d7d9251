using EarHelp.Clinic.Requests;
using EarHelp.Clinic.Times;
using NodaTime;

namespace EarHelp.Clinic.Desk;

/// <summary>One thing that staff did about a request.</summary>
/// <param name="By">Identifier of the account.</param>
/// <param name="Note">In the words of who did it; for staff only, but for <see cref="DeskStepKind.SentElsewhere"/>, where the patient reads it.</param>
/// <param name="Seen">How urgent the request was then: an answer to a request that has become more urgent since is none.</param>
public sealed record DeskStep(DeskStepKind Kind, string By, Instant At, string Note, Urgency Seen)
{
    /// <summary>The destination to which the person was sent, or null.</summary>
    public string? Place { get; init; }

    /// <summary>The time that was offered, or null.</summary>
    public VisitTime? Time { get; init; }

    /// <summary>False for what the service notes by itself: the patient does not read it.</summary>
    public bool IsByStaff => Kind is not (DeskStepKind.Escalated or DeskStepKind.NotWell);
}

public enum DeskStepKind
{
    /// <summary>The visit takes place as it is asked for.</summary>
    Accepted,

    /// <summary>A time is held for the person, who confirms it.</summary>
    OfferedTime,

    /// <summary>Spoke with the person; what was agreed stands in the note.</summary>
    Telephoned,

    /// <summary>Tried to; it is no answer.</summary>
    NotReached,

    SentElsewhere,

    /// <summary>The clinic closed at once, and the visit is off; it is no answer.</summary>
    CalledOff,

    /// <summary>The person was expected and did not come; it is no answer.</summary>
    DidNotCome,

    /// <summary>Nobody had answered in time, and whoever is on duty was told; it is no answer, and the patient does not read it.</summary>
    Escalated,

    /// <summary>The patient answered a check-in after a visit, and the questions led to a limit; it is no answer.</summary>
    NotWell,
}
