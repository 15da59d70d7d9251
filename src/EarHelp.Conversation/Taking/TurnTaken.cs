using System.Collections.Immutable;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.States;
using EarHelp.Conversation.Stepping;

namespace EarHelp.Conversation.Taking;

/// <summary>What became of a turn.</summary>
public abstract record TurnTaken
{
    TurnTaken()
    {
    }

    /// <summary>The turn is on the disk; the replies are those of its record.</summary>
    /// <param name="IsRepeated">True if this turn was kept before: nothing has changed.</param>
    public sealed record Kept(
        string Conversation,
        int Number,
        ImmutableArray<Reply> Replies,
        ServedEdition Edition,
        ConversationState State,
        bool IsRepeated) : TurnTaken;

    /// <summary>The turn could not be saved. The fixed emergency page is the answer, with these emergency texts if it led to any.</summary>
    public sealed record NotSaved(ImmutableArray<Reply> Emergencies, ServedEdition? Edition, string Language) : TurnTaken;

    /// <summary>There is no such conversation, or no longer.</summary>
    public sealed record Unknown : TurnTaken;
}
