using System.Collections.Immutable;
using EarHelp.Clinic.Callers;
using EarHelp.Clinic.Keeping;
using EarHelp.Storage.Records;
using EarHelp.Storage.Writing;

namespace EarHelp.Storage;

/// <summary>Keeps callers in the file of the turns.</summary>
sealed class LiteCallers(LiteTurnStore turns, StoreFile file) : ICallers
{
    public async ValueTask<bool> PutAsync(Caller caller, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(caller);
        return await turns.DoAsync(() => CallerDocuments.Put(file.Database, caller)).ConfigureAwait(false);
    }

    public ValueTask<Caller?> FindAsync(string conversation, CancellationToken cancellation) =>
        ValueTask.FromResult(turns.Read(d => CallerDocuments.Find(d, conversation)));

    public ValueTask<ImmutableArray<Caller>> AllAsync(CancellationToken cancellation) => ValueTask.FromResult(turns.Read(CallerDocuments.All));
}
