using System.Collections.Immutable;
using EarHelp.Clinic.Desk;
using EarHelp.Clinic.Times;
using EarHelp.Conversation.Replies;
using NodaTime;

namespace EarHelp.Clinic.Requests;

/// <summary>That the person of a conversation asks for a visit; a conversation has one. How to reach the person is kept apart.</summary>
/// <param name="Version">From 1; each change is the next one.</param>
/// <param name="LastForm">The form that made this version: sent twice, it is one change.</param>
public sealed record VisitRequest(
    string Conversation, int Version, RequestState State, Instant MadeAt, Instant ChangedAt, string LastForm, Urgency Urgency)
{
    /// <summary>Forms that are remembered; one that comes later than so many others is taken for a new one.</summary>
    const int MostForms = 32;

    public static VisitRequest New(string conversation, string form, Urgency urgency, Instant now) =>
        new(conversation, 1, RequestState.Waiting, now, now, form, urgency);

    /// <summary>The forms that made earlier versions, in order.</summary>
    public ImmutableArray<string> EarlierForms
    {
        get => field.IsDefault ? [] : field;
        init;
    } = [];

    /// <summary>The time that was taken for good, or null.</summary>
    public VisitTime? Booked { get; init; }

    /// <summary>A time that is kept for a short while; a person who moves a visit keeps the old one until the new one is confirmed.</summary>
    public HeldTime? Held { get; init; }

    /// <summary>When the person sent it again, with other details or after it was taken back; null: it was sent once.</summary>
    public Instant? SentAgainAt { get; init; }

    /// <summary>How urgent staff call it, or null: as the patient was told.</summary>
    public Judgement? Judged { get; init; }

    /// <summary>What staff did about it, in order.</summary>
    public ImmutableArray<DeskStep> Steps
    {
        get => field.IsDefault ? [] : field;
        init;
    } = [];

    /// <summary>True if a form has done what it does: when it comes again, even long after, it changes nothing.</summary>
    public bool HasTaken(string form) => LastForm == form || EarlierForms.Contains(form);

    /// <summary>
    /// How urgent it is: as it was sent, or as staff called it; made more urgent, and never less, by what the person was told after that.
    /// </summary>
    /// <param name="told">What the conversation was told, in any order.</param>
    public Urgency UrgencyAfter(IEnumerable<OutcomeTold> told)
    {
        ArgumentNullException.ThrowIfNull(told);
        return told.Where(t => Judged is null || t.DecidedAt > Judged.At)
            .Aggregate(Judged?.Urgency ?? Urgency, (worst, outcome) => Urgency.Of(outcome).OrWorse(worst));
    }

    /// <summary>True once staff answered, unless it has become more urgent since, or an offered time ran out before it was taken.</summary>
    /// <param name="urgency">How urgent it is now.</param>
    public bool IsAnswered(Urgency urgency, Instant now)
    {
        ArgumentNullException.ThrowIfNull(urgency);
        return Steps.LastOrDefault(s => s.Kind is not (DeskStepKind.NotReached or DeskStepKind.Escalated)) is { } last
            && last.Kind is not (DeskStepKind.CalledOff or DeskStepKind.DidNotCome or DeskStepKind.NotWell)
            && urgency.Rank >= last.Seen.Rank
            && (urgency.SeenBy is not { } limit || (last.Seen.SeenBy is { } seen && limit >= seen))
            && (last.Kind != DeskStepKind.OfferedTime || Booked is not null || Held?.IsHeld(now) == true);
    }

    public VisitRequest Stepped(DeskStep step, string form, Instant now) => Changed(form, now) with { Steps = [.. Steps, step] };

    public VisitRequest JudgedAs(Judgement judgement, string form, Instant now) => Changed(form, now) with { Judged = judgement };

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

    /// <summary>Asked again, or with other details. What was told to be more urgent before stays; what staff did counts until it is taken back.</summary>
    public VisitRequest AskedAgain(string form, Urgency urgency, Instant now)
    {
        ArgumentNullException.ThrowIfNull(urgency);
        var again = Changed(form, now) with { State = RequestState.Waiting, Urgency = urgency.OrWorse(Urgency), SentAgainAt = now };
        return State == RequestState.Waiting ? again : again with { Judged = null, Steps = [] };
    }

    public VisitRequest Withdrawn(string form, Instant now) => Cancelled(form, now) with { State = RequestState.Withdrawn };

    VisitRequest Changed(string form, Instant now) =>
        this with { Version = Version + 1, ChangedAt = now, LastForm = form, EarlierForms = [.. EarlierForms.TakeLast(MostForms - 1), LastForm] };
}

public enum RequestState
{
    /// <summary>It stands.</summary>
    Waiting,

    /// <summary>The person took it back; how to reach them is deleted.</summary>
    Withdrawn,
}
