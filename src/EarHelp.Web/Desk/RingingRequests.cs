using System.Collections.Immutable;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using EarHelp.Clinic.Times;
using NodaTime;

namespace EarHelp.Web.Desk;

/// <summary>The store of requests, which rings the desk's bell at every change.</summary>
public sealed class RingingRequests(IRequestStore store, DeskBell bell) : IRequestStore
{
    public async ValueTask<RequestPut> PutAsync(VisitRequest request, ContactDetails? contact, CancellationToken cancellation)
    {
        var put = await store.PutAsync(request, contact, cancellation);
        if (put == RequestPut.Kept)
            bell.Ring();
        return put;
    }

    public ValueTask<KeptRequest?> FindAsync(string conversation, CancellationToken cancellation) => store.FindAsync(conversation, cancellation);

    public ValueTask<ImmutableArray<VisitTime>> TakenAsync(Instant now, string except, CancellationToken cancellation) => store.TakenAsync(now, except, cancellation);

    public ValueTask<ImmutableArray<KeptRequest>> WaitingAsync(CancellationToken cancellation) => store.WaitingAsync(cancellation);

    public ValueTask<int> SweepRequestsAsync(long changedBeforeUnixMilliseconds, CancellationToken cancellation) =>
        store.SweepRequestsAsync(changedBeforeUnixMilliseconds, cancellation);
}
