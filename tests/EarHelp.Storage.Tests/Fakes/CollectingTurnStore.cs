using System.Collections.Immutable;
using EarHelp.Conversation.Keeping;

namespace EarHelp.Storage.Tests.Fakes;

/// <summary>Keeps turns in memory only; for tests that are not about the disk.</summary>
public sealed class CollectingTurnStore : ITurnStore
{
    readonly Lock _lock = new();
    readonly Dictionary<string, List<TurnRecord>> _turns = new(StringComparer.Ordinal);
    readonly Dictionary<string, (string Conversation, ConversationKey Key)> _keys = new(StringComparer.Ordinal);

    /// <summary>While set, nothing more is kept, as on a full disk.</summary>
    public bool IsFull { get; set; }

    /// <summary>All turns of all conversations, in the order of their times.</summary>
    public ImmutableArray<TurnRecord> Records
    {
        get
        {
            lock (_lock)
                return [.. _turns.Values.SelectMany(t => t).OrderBy(t => t.AtUnixMilliseconds).ThenBy(t => t.Number)];
        }
    }

    public ValueTask<Appended> AppendAsync(TurnRecord record, ImmutableArray<ConversationKey> newKeys, CancellationToken cancellation)
    {
        if (IsFull)
            throw new StoreFailedException("The disk is full.");
        lock (_lock)
        {
            var turns = _turns.GetValueOrDefault(record.Conversation) ?? [];
            if (turns.Find(t => t.TurnId == record.TurnId) is { } earlier)
                return ValueTask.FromResult<Appended>(new Appended.Repeated(earlier));
            if (record.Number != turns.Count + 1)
                return ValueTask.FromResult<Appended>(new Appended.Stale());
            turns.Add(record);
            _turns[record.Conversation] = turns;
            foreach (var key in newKeys.Where(k => !_keys.TryGetValue(k.Hash, out var known) || known.Conversation == record.Conversation))
                _keys[key.Hash] = (record.Conversation, key);
            return ValueTask.FromResult<Appended>(new Appended.Kept());
        }
    }

    public ValueTask<ImmutableArray<TurnRecord>> LoadAsync(string conversation, CancellationToken cancellation)
    {
        lock (_lock)
            return ValueTask.FromResult(_turns.TryGetValue(conversation, out var turns) ? [.. turns] : ImmutableArray<TurnRecord>.Empty);
    }

    public ValueTask<string?> FindByKeyAsync(string keyHash, long nowUnixMilliseconds, CancellationToken cancellation)
    {
        lock (_lock)
        {
            var isOpen = _keys.TryGetValue(keyHash, out var key) && (key.Key.ExpiresUnixMilliseconds ?? long.MaxValue) > nowUnixMilliseconds;
            return ValueTask.FromResult(isOpen ? key.Conversation : null);
        }
    }

    public ValueTask<bool> SpendKeyAsync(string keyHash, CancellationToken cancellation)
    {
        lock (_lock)
            return ValueTask.FromResult(_keys.Remove(keyHash));
    }

    public ValueTask<bool> EraseAsync(string conversation, CancellationToken cancellation)
    {
        lock (_lock)
        {
            foreach (var key in _keys.Where(k => k.Value.Conversation == conversation).Select(k => k.Key).ToArray())
                _keys.Remove(key);
            return ValueTask.FromResult(_turns.Remove(conversation));
        }
    }

    public ValueTask<int> SweepUnfinishedAsync(long lastTurnBeforeUnixMilliseconds, CancellationToken cancellation)
    {
        lock (_lock)
        {
            var old = _turns.Where(t => !t.Value[^1].Finished && t.Value[^1].AtUnixMilliseconds < lastTurnBeforeUnixMilliseconds).Select(t => t.Key).ToArray();
            foreach (var key in _keys.Where(k => old.Contains(k.Value.Conversation)).Select(k => k.Key).ToArray())
                _keys.Remove(key);
            return ValueTask.FromResult(old.Count(c => _turns.Remove(c)));
        }
    }
}
