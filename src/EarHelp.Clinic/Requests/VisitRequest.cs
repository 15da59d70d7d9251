using EarHelp.Clinic.Times;
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

    /// <summary>The time that was taken for good, or null.</summary>
    public VisitTime? Booked { get; init; }

    /// <summary>A time that is kept for a short while; a person who moves a visit keeps the old one until the new one is confirmed.</summary>
    public HeldTime? Held { get; init; }

    /// <summary>Every time that nobody else may have now.</summary>
    public IEnumerable<VisitTime> TakenAt(Instant now)
    {
        if (Booked is { } booked)
            yield return booked;
        if (Held is { } held && held.IsHeld(now))
            yield return held.Time;
    }

    public VisitRequest Holding(VisitTime time, Instant until, string form, Instant now) => Changed(form, now) with { Held = new HeldTime(time, until) };

    /// <summary>The time that is held becomes the visit's, in the place of an earlier one.</summary>
    public VisitRequest Confirmed(string form, Instant now) => Changed(form, now) with { Booked = Held?.Time ?? Booked, Held = null };

    /// <summary>The visit is off; the request stays with the clinic.</summary>
    public VisitRequest Cancelled(string form, Instant now) => Changed(form, now) with { Booked = null, Held = null };

    /// <summary>Asked again, or with other details. What was told to be more urgent before stays.</summary>
    public VisitRequest AskedAgain(string form, Urgency urgency, Instant now)
    {
        ArgumentNullException.ThrowIfNull(urgency);
        return Changed(form, now) with { State = RequestState.Waiting, Urgency = urgency.OrWorse(Urgency) };
    }

    public VisitRequest Withdrawn(string form, Instant now) => Cancelled(form, now) with { State = RequestState.Withdrawn };

    VisitRequest Changed(string form, Instant now) => this with { Version = Version + 1, ChangedAt = now, LastForm = form };
}

public enum RequestState
{
    /// <summary>It stands.</summary>
    Waiting,

    /// <summary>The person took it back; how to reach them is deleted.</summary>
    Withdrawn,
}
