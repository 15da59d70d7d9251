using System.Collections.Immutable;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Telling;
using NodaTime;

namespace EarHelp.Web.Bot;

/// <summary>What became of a turn.</summary>
public abstract record TakenTurn
{
    TakenTurn()
    {
    }

    /// <param name="Words">Of the edition and the language that the conversation began with.</param>
    public sealed record Answered(ImmutableArray<Reply> Replies, LetterWriter Words, Instant Now) : TakenTurn;

    /// <summary>The turn is not kept, so there is no answer to it.</summary>
    /// <param name="EmergencyText">The fixed text that is shown then.</param>
    public sealed record NotSaved(string EmergencyText) : TakenTurn;
}
