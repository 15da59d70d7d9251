using System.Collections.Immutable;
using EarHelp.Conversation.Keeping;

namespace EarHelp.Cli.Talking;

/// <summary>Keeps the turns of a conversation as long as the command runs, and nothing on the disk.</summary>
sealed class TurnsInMemory : ITurnStore
{
    readonly List<TurnRecord> _records = [];

    public ValueTask<Appended> AppendAsync(TurnRecord record, ImmutableArray<ConversationKey> newKeys, CancellationToken cancellation)
    {
        if (_records.Find(r => Is(r, record.Conversation) && string.Equals(r.TurnId, record.TurnId, StringComparison.Ordinal)) is { } earlier)
            return ValueTask.FromResult<Appended>(new Appended.Repeated(earlier));
        if (_records.Count(r => Is(r, record.Conversation)) != record.Number - 1)
            return ValueTask.FromResult<Appended>(new Appended.Stale());
        _records.Add(record);
        return ValueTask.FromResult<Appended>(new Appended.Kept());
    }

    public ValueTask<ImmutableArray<TurnRecord>> LoadAsync(string conversation, CancellationToken cancellation) =>
        ValueTask.FromResult(_records.Where(r => Is(r, conversation)).ToImmutableArray());

    public ValueTask<string?> FindByKeyAsync(string keyHash, long nowUnixMilliseconds, CancellationToken cancellation) =>
        ValueTask.FromResult<string?>(null);

    public ValueTask<bool> SpendKeyAsync(string keyHash, CancellationToken cancellation) => ValueTask.FromResult(false);

    public ValueTask<bool> EraseAsync(string conversation, CancellationToken cancellation) =>
        ValueTask.FromResult(_records.RemoveAll(r => Is(r, conversation)) > 0);

    public ValueTask<int> SweepUnfinishedAsync(long lastTurnBeforeUnixMilliseconds, CancellationToken cancellation) => ValueTask.FromResult(0);

    static bool Is(TurnRecord record, string conversation) => string.Equals(record.Conversation, conversation, StringComparison.Ordinal);
}
