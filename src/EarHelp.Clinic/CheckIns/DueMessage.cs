using NodaTime;

namespace EarHelp.Clinic.CheckIns;

/// <summary>One message to a patient, and when it may be sent.</summary>
/// <param name="Name">Which of the patient's messages it is: sent again, it is the same one.</param>
/// <param name="Until">The end, which is outside; its link opens until then.</param>
public sealed record DueMessage(MessageKind Kind, string Name, Instant From, Instant Until)
{
    public bool IsOpen(Instant now) => From <= now && now < Until;
}

public enum MessageKind
{
    /// <summary>How it is, some days after a visit.</summary>
    AfterVisit,

    /// <summary>Reminds of a visit that is booked, and asks whether anything has changed.</summary>
    BeforeVisit,

    /// <summary>The clinic has answered, moved or called off a visit, or called it more or less urgent.</summary>
    News,
}
