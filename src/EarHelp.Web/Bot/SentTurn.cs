using EarHelp.Conversation.Turns;

namespace EarHelp.Web.Bot;

/// <summary>What an activity asks of us.</summary>
public abstract record SentTurn
{
    SentTurn()
    {
    }

    public sealed record Taken(Turn Turn) : SentTurn;

    /// <summary>Typing signs, deletions and the like: nothing to do.</summary>
    public sealed record NotForUs : SentTurn;

    /// <param name="Fault">For the programmer of the channel.</param>
    public sealed record Unreadable(string Fault) : SentTurn;
}
