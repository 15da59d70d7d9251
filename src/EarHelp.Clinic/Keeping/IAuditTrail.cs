using System.Collections.Immutable;
using EarHelp.Clinic.Auditing;
using EarHelp.Conversation.Keeping;

namespace EarHelp.Clinic.Keeping;

/// <summary>Keeps who read and changed which record, for good: entries are only ever added, each chained to the one before it.</summary>
public interface IAuditTrail
{
    /// <summary>Adds an entry; what it speaks of is shown or done only after that.</summary>
    /// <exception cref="StoreFailedException">It is not kept.</exception>
    ValueTask AddAsync(AuditEntry entry, CancellationToken cancellation);

    ValueTask<AuditRead> ReadAsync(CancellationToken cancellation);
}

/// <param name="Entries">In order; up to the first that cannot be relied on.</param>
/// <param name="FirstDamaged">Number, from 1, of the first entry that was changed after it was made or whose predecessor is missing; null: none.</param>
public sealed record AuditRead(ImmutableArray<AuditEntry> Entries, int? FirstDamaged);
