using System.Collections.Immutable;
using EarHelp.Conversation.Keeping;

namespace EarHelp.Storage.Records;

/// <summary>All turns of a conversation, or the name of the first that cannot be relied on.</summary>
static class WholeChain
{
    /// <param name="records">In order.</param>
    /// <exception cref="StoreFailedException">A record was changed after it was made.</exception>
    public static ImmutableArray<TurnRecord> Of(string conversation, IEnumerable<TurnRecord> records)
    {
        var whole = ImmutableArray.CreateBuilder<TurnRecord>();
        var previous = string.Empty;
        foreach (var record in records)
        {
            if (record.Number != whole.Count + 1 || !record.IsIntact(previous))
                throw new StoreFailedException($"Turn {record.Number} of conversation {conversation} is damaged: its hash does not fit. Restore the last verified backup.");
            whole.Add(record);
            previous = record.Hash;
        }

        return whole.ToImmutable();
    }
}
