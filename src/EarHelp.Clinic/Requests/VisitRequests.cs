using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Desk;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Times;
using NodaTime;

namespace EarHelp.Clinic.Requests;

/// <summary>Asking for a visit, changing and taking it back; holding, confirming, moving and cancelling a time. Each is kept before it is answered.</summary>
public sealed class VisitRequests(IRequestStore store, TimeProvider clock)
{
    /// <summary>To the millisecond, as it is kept.</summary>
    Instant Now => Instant.FromUnixTimeMilliseconds(clock.GetUtcNow().ToUnixTimeMilliseconds());

    public ValueTask<KeptRequest?> FindAsync(string conversation, CancellationToken cancellation) => store.FindAsync(conversation, cancellation);

    /// <param name="form">The sender's identifier of the form: the same form sent twice is one request.</param>
    /// <returns><see cref="RequestPut.Gone"/> if the conversation is gone.</returns>
    public ValueTask<RequestPut> AskAsync(string conversation, string form, Urgency urgency, ContactDetails contact, CancellationToken cancellation) =>
        ChangeAsync(
            conversation,
            form,
            (kept, now) => new KeptRequest(kept?.Request.AskedAgain(form, urgency, now) ?? VisitRequest.New(conversation, form, urgency, now), contact),
            cancellation);

    /// <summary>Takes the request and its time back, and forgets how to reach the person.</summary>
    public ValueTask<RequestPut> WithdrawAsync(string conversation, string form, CancellationToken cancellation) =>
        IfStandingAsync(conversation, form, (kept, now) => new KeptRequest(kept.Request.Withdrawn(form, now), null), cancellation);

    /// <summary>Keeps a time for a short while; an earlier one that is booked stays until this one is confirmed.</summary>
    public ValueTask<RequestPut> HoldAsync(string conversation, string form, VisitTime time, Duration heldFor, CancellationToken cancellation) =>
        IfStandingAsync(conversation, form, (kept, now) => kept with { Request = kept.Request.Holding(time, now + heldFor, form, now) }, cancellation);

    /// <summary>Takes the held time for good: also after it ran out, unless somebody else has it.</summary>
    public ValueTask<RequestPut> ConfirmAsync(string conversation, string form, CancellationToken cancellation) =>
        IfStandingAsync(
            conversation, form, (kept, now) => kept.Request.Held is null ? null : kept with { Request = kept.Request.Confirmed(form, now) }, cancellation);

    /// <summary>Gives the booked or held time back.</summary>
    public ValueTask<RequestPut> CancelAsync(string conversation, string form, CancellationToken cancellation) =>
        IfStandingAsync(conversation, form, (kept, now) => kept with { Request = kept.Request.Cancelled(form, now) }, cancellation);

    /// <summary>Puts a patient who is not well after a visit before the desk; a request that stands, or was answered, waits anew.</summary>
    /// <param name="urgency">What the questions led to.</param>
    /// <param name="contact">How to reach the patient if the request does not say so.</param>
    public ValueTask<RequestPut> NotWellAsync(string conversation, string form, Urgency urgency, ContactDetails contact, CancellationToken cancellation) =>
        ChangeAsync(
            conversation,
            form,
            (kept, now) =>
            {
                var request = kept?.Request.AskedAgain(form, urgency, now) ?? VisitRequest.New(conversation, form, urgency, now);
                var step = new DeskStep(DeskStepKind.NotWell, Actor.Service, now, "", urgency);
                return new KeptRequest(request with { Steps = [.. request.Steps, step] }, kept?.Contact ?? contact);
            },
            cancellation);

    /// <summary>What staff do about a request that stands.</summary>
    /// <param name="next">What it becomes at a moment; null: nothing is to be changed.</param>
    public ValueTask<RequestPut> ChangeAsync(string conversation, string form, Func<VisitRequest, Instant, VisitRequest?> next, CancellationToken cancellation) =>
        IfStandingAsync(conversation, form, (kept, now) => next(kept.Request, now) is { } changed ? kept with { Request = changed } : null, cancellation);

    ValueTask<RequestPut> IfStandingAsync(
        string conversation, string form, Func<KeptRequest, Instant, KeptRequest?> next, CancellationToken cancellation) =>
        ChangeAsync(conversation, form, (kept, now) => kept is { Request.State: RequestState.Waiting } ? next(kept, now) : null, cancellation);

    /// <param name="next">What it becomes; null: nothing is to be changed.</param>
    async ValueTask<RequestPut> ChangeAsync(
        string conversation, string form, Func<KeptRequest?, Instant, KeptRequest?> next, CancellationToken cancellation)
    {
        while (true)
        {
            var kept = await store.FindAsync(conversation, cancellation).ConfigureAwait(false);
            if (kept?.Request.HasTaken(form) == true || next(kept, Now) is not { } changed)
                return RequestPut.Kept;
            if (await store.PutAsync(changed.Request, changed.Contact, cancellation).ConfigureAwait(false) is var put and not RequestPut.Stale)
                return put;
        }
    }
}
