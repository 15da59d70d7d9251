using System.Collections.Immutable;
using EarHelp.Clinic.Keeping;
using EarHelp.Storage.Records;
using EarHelp.Storage.Writing;

namespace EarHelp.Storage;

/// <summary>Keeps when the clinic closed at once in the file of the turns.</summary>
sealed class LiteClosings(LiteTurnStore turns, StoreFile file) : IClosings
{
    public async ValueTask PutAsync(KeptClosing closing, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(closing);
        await turns.DoAsync(() => file.Database.GetCollection(ClosingDocuments.Collection).Upsert(ClosingDocuments.Write(closing))).ConfigureAwait(false);
    }

    public ValueTask<ImmutableArray<KeptClosing>> AllAsync(CancellationToken cancellation) => ValueTask.FromResult(turns.Read(ClosingDocuments.All));
}
