using System.Collections.Immutable;
using EarHelp.Conversation.Keeping;

namespace EarHelp.Conversation.Tests.Taking;

/// <summary>Keeps turns in memory, by the contract of the port; may be told to fail.</summary>
sealed class TurnsInMemory : ITurnStore
{
    readonly Dictionary<string, List<TurnRecord>> _turns = new(StringComparer.Ordinal);

    public bool FailsToAppend { get; set; }

    public bool FailsToLoad { get; set; }

    public int Loads { get; private set; }

    public IReadOnlyList<TurnRecord> Of(string conversation) => _turns.GetValueOrDefault(conversation) ?? [];

    public void Replace(string conversation, int number, TurnRecord record) => _turns[conversation][number - 1] = record;

    public ValueTask<Appended> AppendAsync(TurnRecord record, ImmutableArray<ConversationKey> newKeys, CancellationToken cancellation)
    {
        lock (_turns)
        {
            if (FailsToAppend)
                throw new StoreFailedException("The disk is full.");
            if (!_turns.TryGetValue(record.Conversation, out var turns))
                _turns[record.Conversation] = turns = [];
            if (turns.Find(t => t.TurnId == record.TurnId) is { } earlier)
                return new(new Appended.Repeated(earlier));
            if (record.Number != turns.Count + 1)
                return new(new Appended.Stale());
            turns.Add(record);
            return new(new Appended.Kept());
        }
    }

    public ValueTask<ImmutableArray<TurnRecord>> LoadAsync(string conversation, CancellationToken cancellation)
    {
        lock (_turns)
        {
            Loads++;
            if (FailsToLoad)
                throw new StoreFailedException("The disk is gone.");
            return new([.. Of(conversation)]);
        }
    }

    public ValueTask<string?> FindByKeyAsync(string keyHash, long nowUnixMilliseconds, CancellationToken cancellation) => new((string?)null);

    public ValueTask<bool> SpendKeyAsync(string keyHash, CancellationToken cancellation) => new(false);

    public ValueTask<bool> EraseAsync(string conversation, CancellationToken cancellation) => new(_turns.Remove(conversation));

    public ValueTask<int> SweepUnfinishedAsync(long lastTurnBeforeUnixMilliseconds, CancellationToken cancellation) => new(0);
}
