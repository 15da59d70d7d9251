using System.Collections.Immutable;

namespace EarHelp.Conversation.Keeping;

/// <summary>Keeps what people did about editions (signed, published), for good: records are only ever added.</summary>
public interface IEditionLedger
{
    /// <summary>Keeps record n if n-1 is the last and its hash the one before. False: another one came first; read again, decide again.</summary>
    /// <exception cref="StoreFailedException">The record is not kept.</exception>
    /// <exception cref="LedgerDamagedException">A damaged ledger is not added to.</exception>
    ValueTask<bool> AppendAsync(ChainedRecord record, CancellationToken cancellation);

    /// <summary>All records in order.</summary>
    /// <exception cref="LedgerDamagedException">One was changed after it was made, or is missing.</exception>
    ValueTask<ImmutableArray<ChainedRecord>> ReadAsync(CancellationToken cancellation);
}
