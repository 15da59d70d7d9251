namespace EarHelp.Conversation.Keeping;

/// <summary>Tells what other processes that share the store have changed of what this one holds in memory.</summary>
public interface IKeptElsewhere
{
    /// <summary>Without end, until it is cancelled. Ends at once if no other process can share the store.</summary>
    IAsyncEnumerable<ChangedElsewhere> ListenAsync(CancellationToken cancellation);

    /// <summary>Takes a piece of work that one process at a time does, until what is given is disposed of.</summary>
    /// <param name="work">The same name in every process.</param>
    /// <returns>Null: another process does it at this moment.</returns>
    /// <exception cref="StoreFailedException">The store does not answer.</exception>
    ValueTask<IAsyncDisposable?> ClaimAsync(string work, CancellationToken cancellation);
}

/// <summary>What was changed by another process, or by this one.</summary>
public abstract record ChangedElsewhere
{
    ChangedElsewhere()
    {
    }

    /// <summary>Something was signed, published or withdrawn.</summary>
    public sealed record Ledger : ChangedElsewhere;

    /// <summary>The clinic closed at once, or opened again.</summary>
    public sealed record Closings : ChangedElsewhere;

    /// <summary>A request for a visit.</summary>
    public sealed record Requests : ChangedElsewhere;

    public sealed record Erased(string Conversation) : ChangedElsewhere;

    /// <summary>Anything: nothing was heard for a while.</summary>
    public sealed record Anything : ChangedElsewhere;
}
