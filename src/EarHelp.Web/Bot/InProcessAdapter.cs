using System.Collections.Immutable;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Taking;
using EarHelp.Conversation.Turns;
using Microsoft.Bot.Builder;
using Microsoft.Bot.Schema;

namespace EarHelp.Web.Bot;

/// <summary>The channel of this process's own pages. One instance takes one turn, since it collects that turn's replies.</summary>
public sealed class InProcessAdapter : BotAdapter
{
    const string Channel = "page";

    readonly List<Activity> _sent = [];

    /// <summary>The typed replies that the bot sent, in order.</summary>
    public ImmutableArray<Reply> Replies => [.. _sent.Select(a => a.ChannelData).OfType<TypedReply>().Select(t => t.Reply)];

    /// <summary>Hands the bot one turn; the texts are left to the page, which has its own form for them.</summary>
    /// <param name="conversation">Our own identifier of the conversation.</param>
    /// <param name="newKeys">What opens the conversation from this turn on.</param>
    public async Task<TurnTaken> TakeAsync(
        IBot bot, string conversation, Turn turn, ImmutableArray<ConversationKey> newKeys, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(bot);
        ArgumentNullException.ThrowIfNull(turn);
        var activity = new Activity(ActivityTypes.Message, id: turn.Id, channelId: Channel, conversation: new ConversationAccount(id: conversation));
        using var context = new TurnContext(this, activity);
        context.TurnState.Add(new OwnTurn(conversation, turn, newKeys));
        await RunPipelineAsync(context, bot.OnTurnAsync, cancellation).ConfigureAwait(false);
        return context.TurnState.Get<TurnTaken>() ?? throw new InvalidOperationException("The bot has not taken the turn.");
    }

    public override Task<ResourceResponse[]> SendActivitiesAsync(
        ITurnContext turnContext, Activity[] activities, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(activities);
        _sent.AddRange(activities);
        return Task.FromResult(activities.Select(a => new ResourceResponse(a.Id)).ToArray());
    }

    public override Task<ResourceResponse> UpdateActivityAsync(ITurnContext turnContext, Activity activity, CancellationToken cancellationToken) =>
        throw new NotSupportedException("What was told stays told.");

    public override Task DeleteActivityAsync(ITurnContext turnContext, ConversationReference reference, CancellationToken cancellationToken) =>
        throw new NotSupportedException("What was told stays told.");
}
