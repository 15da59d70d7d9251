using NodaTime;

namespace EarHelp.Clinic.Requests;

/// <summary>That the person of a conversation asks for a visit; a conversation has one. How to reach the person is kept apart.</summary>
/// <param name="Version">From 1; each change is the next one.</param>
/// <param name="LastForm">The form that made this version: sent twice, it is one change.</param>
public sealed record VisitRequest(
    string Conversation, int Version, RequestState State, Instant MadeAt, Instant ChangedAt, string LastForm, Urgency Urgency)
{
    public static VisitRequest New(string conversation, string form, Urgency urgency, Instant now) =>
        new(conversation, 1, RequestState.Waiting, now, now, form, urgency);

    /// <summary>Asked again, or with other details. What was told to be more urgent before stays.</summary>
    public VisitRequest AskedAgain(string form, Urgency urgency, Instant now)
    {
        ArgumentNullException.ThrowIfNull(urgency);
        return Changed(form, now) with { State = RequestState.Waiting, Urgency = urgency.OrWorse(Urgency) };
    }

    public VisitRequest Withdrawn(string form, Instant now) => Changed(form, now) with { State = RequestState.Withdrawn };

    VisitRequest Changed(string form, Instant now) => this with { Version = Version + 1, ChangedAt = now, LastForm = form };
}

public enum RequestState
{
    /// <summary>Nobody at the clinic has answered.</summary>
    Waiting,

    /// <summary>The person took it back; how to reach them is deleted.</summary>
    Withdrawn,
}
