using System.Collections.Immutable;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Staff;
using EarHelp.Storage.Records;
using EarHelp.Storage.Writing;

namespace EarHelp.Storage;

/// <summary>Keeps the accounts of staff in the file of the turns.</summary>
sealed class LiteStaffStore(LiteTurnStore turns, StoreFile file) : IStaffStore
{
    public async ValueTask<StaffPut> PutAsync(StaffAccount account, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(account);
        return await turns.DoAsync(() => StaffDocuments.Put(file.Database, account)).ConfigureAwait(false);
    }

    public ValueTask<StaffAccount?> FindAsync(string id, CancellationToken cancellation) =>
        ValueTask.FromResult(turns.Read(d => StaffDocuments.Find(d, id)));

    public ValueTask<ImmutableArray<StaffAccount>> AllAsync(CancellationToken cancellation) => ValueTask.FromResult(turns.Read(StaffDocuments.All));
}
