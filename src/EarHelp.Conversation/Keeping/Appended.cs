namespace EarHelp.Conversation.Keeping;

/// <summary>What became of a turn that was handed to the store.</summary>
public abstract record Appended
{
    Appended()
    {
    }

    /// <summary>The turn is on the disk; it may be answered.</summary>
    public sealed record Kept : Appended;

    /// <summary>A turn with this identifier is already kept in this conversation: answer with its replies.</summary>
    public sealed record Repeated(TurnRecord Earlier) : Appended;

    /// <summary>Another turn has taken this number: read again, decide again.</summary>
    public sealed record Stale : Appended;
}
