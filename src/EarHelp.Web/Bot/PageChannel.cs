using System.Collections.Immutable;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Taking;
using EarHelp.Conversation.Turns;
using Microsoft.Bot.Builder;

namespace EarHelp.Web.Bot;

/// <summary>The pages' way to the one bot that serves every channel; nothing of the SDK is seen outside this folder.</summary>
public sealed class PageChannel
{
    readonly IBot _bot;

    internal PageChannel(IBot bot) => _bot = bot;

    /// <summary>Hands the bot one turn and gives what became of it.</summary>
    public Task<TurnTaken> TakeAsync(string conversation, Turn turn, ImmutableArray<ConversationKey> newKeys, CancellationToken cancellation) =>
        new InProcessAdapter().TakeAsync(_bot, conversation, turn, newKeys, cancellation);
}
