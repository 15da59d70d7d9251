using System.Collections.Immutable;
using EarHelp.Conversation.Keeping;

namespace EarHelp.Bot.Tests;

/// <summary>Keeps turns in memory, as a store must: n only after n-1, a known turn never twice.</summary>
sealed class CollectingTurnStore : ITurnStore
{
    readonly Lock _gate = new();
    readonly List<TurnRecord> _records = [];

    /// <summary>Set: nothing more is kept, as on a full disk.</summary>
    public bool IsFull { get; set; }

    public ImmutableArray<TurnRecord> Records
    {
        get
        {
            lock (_gate)
                return [.. _records];
        }
    }

    public ValueTask<Appended> AppendAsync(TurnRecord record, ImmutableArray<ConversationKey> newKeys, CancellationToken cancellation)
    {
        lock (_gate)
        {
            if (IsFull)
                throw new StoreFailedException("The disk is full.");
            var before = _records.Where(r => r.Conversation == record.Conversation).ToList();
            if (before.Find(r => r.TurnId == record.TurnId) is { } earlier)
                return ValueTask.FromResult<Appended>(new Appended.Repeated(earlier));
            if (before.Count != record.Number - 1)
                return ValueTask.FromResult<Appended>(new Appended.Stale());
            _records.Add(record);
            return ValueTask.FromResult<Appended>(new Appended.Kept());
        }
    }

    public ValueTask<ImmutableArray<TurnRecord>> LoadAsync(string conversation, CancellationToken cancellation) =>
        ValueTask.FromResult(Records.Where(r => r.Conversation == conversation).ToImmutableArray());

    public ValueTask<string?> FindByKeyAsync(string keyHash, long nowUnixMilliseconds, CancellationToken cancellation) =>
        ValueTask.FromResult<string?>(null);

    public ValueTask<bool> SpendKeyAsync(string keyHash, CancellationToken cancellation) => ValueTask.FromResult(false);

    public ValueTask<bool> EraseAsync(string conversation, CancellationToken cancellation) => ValueTask.FromResult(false);

    public ValueTask<int> SweepUnfinishedAsync(long lastTurnBeforeUnixMilliseconds, CancellationToken cancellation) => ValueTask.FromResult(0);
}
