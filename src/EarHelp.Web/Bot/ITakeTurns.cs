using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Turns;

namespace EarHelp.Web.Bot;

/// <summary>What the bot needs of the conversation: a turn is decided, kept, and only then answered from what was kept.</summary>
public interface ITakeTurns
{
    /// <summary>Takes a turn of the conversation that the key opens; a key that opens none yet begins one.</summary>
    /// <param name="turn">A turn with an identifier that is already kept gets its kept replies and changes nothing.</param>
    ValueTask<TakenTurn> TakeAsync(ConversationKey key, Turn turn, CancellationToken cancellation);
}
