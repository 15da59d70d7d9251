using System.Collections.Immutable;
using EarHelp.Clinic.Keeping;
using EarHelp.Storage.Records;
using EarHelp.Storage.Writing;

namespace EarHelp.Storage;

/// <summary>Keeps sealing keys in the file of the turns.</summary>
sealed class LiteSealingKeys(LiteTurnStore turns, StoreFile file) : ISealingKeys
{
    public async ValueTask AddAsync(SealingKey key, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(key);
        await turns.DoAsync(() => SealingKeyDocuments.Add(file.Database, key)).ConfigureAwait(false);
    }

    public ValueTask<ImmutableArray<SealingKey>> AllAsync(CancellationToken cancellation) => ValueTask.FromResult(turns.Read(SealingKeyDocuments.All));
}
