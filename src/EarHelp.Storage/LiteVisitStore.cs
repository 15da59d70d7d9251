using System.Collections.Immutable;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Visits;
using EarHelp.Storage.Records;
using EarHelp.Storage.Writing;
using LiteDB;

namespace EarHelp.Storage;

/// <summary>Keeps visits in the file of the turns, so that erasing a conversation takes both at once.</summary>
sealed class LiteVisitStore(LiteTurnStore turns, StoreFile file) : IVisitStore
{
    public async ValueTask<bool> PutAsync(Visit visit, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(visit);
        return await turns.DoAsync(() => Change(d => VisitDocuments.Put(d, visit))).ConfigureAwait(false);
    }

    public async ValueTask<bool> CorrectAsync(Visit visit, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(visit);
        return await turns.DoAsync(() => Change(d => VisitDocuments.Correct(d, visit))).ConfigureAwait(false);
    }

    public ValueTask<Visit?> FindAsync(string conversation, CancellationToken cancellation) =>
        ValueTask.FromResult(turns.Read(d => VisitDocuments.Find(d, conversation)));

    public ValueTask<ImmutableArray<Visit>> AllAsync(CancellationToken cancellation) => ValueTask.FromResult(turns.Read(VisitDocuments.All));

    public async ValueTask<int> SweepVisitsAsync(long beforeUnixMilliseconds, CancellationToken cancellation) =>
        await turns.EraseAsync(() => VisitDocuments.Before(file.Database, beforeUnixMilliseconds)).ConfigureAwait(false);

    bool Change(Func<LiteDatabase, bool> change)
    {
        file.Database.BeginTrans();
        var isKept = change(file.Database);
        if (!file.Database.Commit())
            throw new InvalidOperationException("The database did not commit.");
        return isKept;
    }
}
