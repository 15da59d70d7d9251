using System.Collections.Immutable;

namespace EarHelp.Conversation.Keeping;

/// <summary>Keeps turns. What it has acknowledged survives the loss of power.</summary>
public interface ITurnStore
{
    /// <summary>
    /// Keeps turn n if n-1 is the last of its conversation, atomically with the keys that open the conversation from now on.
    /// The result is given only once the turn is on the disk.
    /// </summary>
    /// <param name="record">The turn. Number 1 begins a conversation.</param>
    /// <param name="newKeys">Hashes of secrets that open this conversation (see <see cref="ConversationKey"/>); one that opens another already goes on to do so.</param>
    /// <exception cref="StoreFailedException">The turn is not kept, and must not be answered as if it were.</exception>
    ValueTask<Appended> AppendAsync(TurnRecord record, ImmutableArray<ConversationKey> newKeys, CancellationToken cancellation);

    /// <summary>All turns of a conversation in order; empty if there is none.</summary>
    ValueTask<ImmutableArray<TurnRecord>> LoadAsync(string conversation, CancellationToken cancellation);

    /// <summary>
    /// False if another process has added to a conversation, or erased it, since turn n was its last: what is held in memory of it is behind.
    /// Always true where one process has the store.
    /// </summary>
    ValueTask<bool> IsLastAsync(string conversation, int number, CancellationToken cancellation) => ValueTask.FromResult(true);

    /// <summary>The conversation that a key opens, or null.</summary>
    /// <param name="keyHash">Lower-case hex SHA-256 of the secret.</param>
    /// <param name="nowUnixMilliseconds">An expired key opens nothing.</param>
    ValueTask<string?> FindByKeyAsync(string keyHash, long nowUnixMilliseconds, CancellationToken cancellation);

    /// <summary>Takes a one-time key: true for exactly one caller.</summary>
    ValueTask<bool> SpendKeyAsync(string keyHash, CancellationToken cancellation);

    /// <summary>Removes a conversation with its keys, so that no page of any file holds its text. False if there is none.</summary>
    ValueTask<bool> EraseAsync(string conversation, CancellationToken cancellation);

    /// <summary>Removes unfinished conversations whose last turn is older than the given instant; returns how many.</summary>
    ValueTask<int> SweepUnfinishedAsync(long lastTurnBeforeUnixMilliseconds, CancellationToken cancellation);
}
