using System.Collections.Immutable;
using EarHelp.Clinic.Staff;
using EarHelp.Conversation.Keeping;

namespace EarHelp.Clinic.Keeping;

/// <summary>Keeps the accounts of staff. None is ever removed: the audit trail names them.</summary>
public interface IStaffStore
{
    /// <summary>Keeps version n of an account if n-1 is the last. Given only once it is on the disk.</summary>
    /// <exception cref="StoreFailedException">It is not kept.</exception>
    ValueTask<StaffPut> PutAsync(StaffAccount account, CancellationToken cancellation);

    ValueTask<StaffAccount?> FindAsync(string id, CancellationToken cancellation);

    /// <summary>All accounts, those that were closed too; by their identifier.</summary>
    ValueTask<ImmutableArray<StaffAccount>> AllAsync(CancellationToken cancellation);
}

/// <summary>What became of an account that was handed to the store.</summary>
public enum StaffPut
{
    Kept,

    /// <summary>Another version came first: read again, decide again.</summary>
    Stale,

    /// <summary>Somebody else signs in by this name.</summary>
    NameTaken,
}
