using System.Collections.Immutable;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using EarHelp.Clinic.Times;
using EarHelp.Storage.Records;
using EarHelp.Storage.Writing;
using NodaTime;

namespace EarHelp.Storage;

/// <summary>Keeps requests for visits in the file of the turns, so that erasing a conversation takes both at once.</summary>
sealed class LiteRequestStore(LiteTurnStore turns, StoreFile file) : IRequestStore
{
    public async ValueTask<RequestPut> PutAsync(VisitRequest request, ContactDetails? contact, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(request);
        var (put, forgets) = await turns.DoAsync(() => Put(request, contact)).ConfigureAwait(false);
        if (forgets)
            await turns.RenewAsync().ConfigureAwait(false);
        return put;
    }

    public ValueTask<KeptRequest?> FindAsync(string conversation, CancellationToken cancellation) =>
        ValueTask.FromResult(turns.Read(d => RequestDocuments.Find(d, conversation)));

    public ValueTask<ImmutableArray<VisitTime>> TakenAsync(Instant now, string except, CancellationToken cancellation) =>
        ValueTask.FromResult(turns.Read(d => RequestDocuments.Taken(d, now, except)));

    public ValueTask<ImmutableArray<KeptRequest>> WaitingAsync(CancellationToken cancellation) =>
        ValueTask.FromResult(turns.Read(RequestDocuments.Waiting));

    public async ValueTask<int> SweepRequestsAsync(long changedBeforeUnixMilliseconds, CancellationToken cancellation)
    {
        var swept = await turns.DoAsync(() => Sweep(changedBeforeUnixMilliseconds)).ConfigureAwait(false);
        if (swept > 0)
            await turns.RenewAsync().ConfigureAwait(false);
        return swept;
    }

    (RequestPut Put, bool Forgets) Put(VisitRequest request, ContactDetails? contact)
    {
        var forgets = contact is null && RequestDocuments.HasContact(file.Database, request.Conversation);
        if (forgets)
            turns.Announce();
        file.Database.BeginTrans();
        var put = RequestDocuments.Put(file.Database, request, contact);
        Commit();
        return (put, forgets);
    }

    int Sweep(long changedBefore)
    {
        var swept = RequestDocuments.ChangedBefore(file.Database, changedBefore);
        if (swept.IsEmpty)
            return 0;
        turns.Announce();
        file.Database.BeginTrans();
        foreach (var conversation in swept)
            RequestDocuments.Delete(file.Database, conversation);
        Commit();
        return swept.Length;
    }

    void Commit()
    {
        if (!file.Database.Commit())
            throw new InvalidOperationException("The database did not commit.");
    }
}
