using EarHelp.Clinic.Keeping;
using NodaTime;

namespace EarHelp.Clinic.Requests;

/// <summary>Asking for a visit, asking with other details, and taking it back. Each is kept before it is answered.</summary>
public sealed class VisitRequests(IRequestStore store, TimeProvider clock)
{
    /// <summary>To the millisecond, as it is kept.</summary>
    Instant Now => Instant.FromUnixTimeMilliseconds(clock.GetUtcNow().ToUnixTimeMilliseconds());

    public ValueTask<KeptRequest?> FindAsync(string conversation, CancellationToken cancellation) => store.FindAsync(conversation, cancellation);

    /// <param name="form">The sender's identifier of the form: the same form sent twice is one request.</param>
    /// <returns>Null if the conversation is gone.</returns>
    public ValueTask<VisitRequest?> AskAsync(string conversation, string form, Urgency urgency, ContactDetails contact, CancellationToken cancellation) =>
        ChangeAsync(
            conversation,
            form,
            (earlier, now) => earlier?.AskedAgain(form, urgency, now) ?? VisitRequest.New(conversation, form, urgency, now),
            contact,
            cancellation);

    /// <returns>Null if there is no request.</returns>
    public ValueTask<VisitRequest?> WithdrawAsync(string conversation, string form, CancellationToken cancellation) =>
        ChangeAsync(
            conversation, form, (earlier, now) => earlier is { State: RequestState.Withdrawn } ? null : earlier?.Withdrawn(form, now), null, cancellation);

    /// <param name="next">What it becomes; null: nothing is to be changed.</param>
    async ValueTask<VisitRequest?> ChangeAsync(
        string conversation, string form, Func<VisitRequest?, Instant, VisitRequest?> next, ContactDetails? contact, CancellationToken cancellation)
    {
        while (true)
        {
            var earlier = (await store.FindAsync(conversation, cancellation).ConfigureAwait(false))?.Request;
            if (earlier is not null && earlier.LastForm == form)
                return earlier;
            if (next(earlier, Now) is not { } request)
                return earlier;
            switch (await store.PutAsync(request, contact, cancellation).ConfigureAwait(false))
            {
                case RequestPut.Kept:
                    return request;
                case RequestPut.Gone:
                    return null;
                case RequestPut.Stale:
                    break;
                default:
                    throw new System.Diagnostics.UnreachableException();
            }
        }
    }
}
