using System.Collections.Immutable;
using EarHelp.Clinic.CheckIns;
using EarHelp.Clinic.Keeping;
using EarHelp.Storage.Records;
using EarHelp.Storage.Writing;

namespace EarHelp.Storage;

/// <summary>Keeps follow-ups in the file of the turns.</summary>
sealed class LiteFollowUps(LiteTurnStore turns, StoreFile file) : IFollowUps
{
    public async ValueTask<bool> PutAsync(FollowUp followUp, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(followUp);
        return await turns.DoAsync(() => FollowUpDocuments.Put(file.Database, followUp)).ConfigureAwait(false);
    }

    public ValueTask<FollowUp?> FindAsync(string conversation, CancellationToken cancellation) =>
        ValueTask.FromResult(turns.Read(d => FollowUpDocuments.Find(d, conversation)));

    public ValueTask<ImmutableArray<FollowUp>> AllAsync(CancellationToken cancellation) => ValueTask.FromResult(turns.Read(FollowUpDocuments.All));
}
