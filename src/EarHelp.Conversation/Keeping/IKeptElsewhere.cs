namespace EarHelp.Conversation.Keeping;

/// <summary>Tells what other processes that share the store have changed of what this one holds in memory.</summary>
public interface IKeptElsewhere
{
    /// <summary>Without end, until it is cancelled. Ends at once if no other process can share the store.</summary>
    IAsyncEnumerable<ChangedElsewhere> ListenAsync(CancellationToken cancellation);
}

/// <summary>What was changed by another process, or by this one.</summary>
public abstract record ChangedElsewhere
{
    ChangedElsewhere()
    {
    }

    /// <summary>Something was signed, published or withdrawn.</summary>
    public sealed record Ledger : ChangedElsewhere;

    public sealed record Erased(string Conversation) : ChangedElsewhere;

    /// <summary>Anything: nothing was heard for a while.</summary>
    public sealed record Anything : ChangedElsewhere;
}
