using System.Collections.Immutable;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Turns;
using Microsoft.Bot.Builder;
using Microsoft.Bot.Schema;

namespace EarHelp.Web.Bot;

/// <summary>The channel of this process's own pages. One instance takes one turn, since it collects that turn's replies.</summary>
public sealed class InProcessAdapter : BotAdapter
{
    const string Channel = "page";

    readonly List<Activity> _sent = [];

    /// <summary>What the bot sent, as any channel would get it.</summary>
    public IReadOnlyList<IMessageActivity> Sent => _sent;

    /// <returns>The typed replies, or null if the turn could not be saved: then the fixed emergency page is the answer.</returns>
    public async Task<ImmutableArray<Reply>?> AskAsync(IBot bot, ConversationKey key, Turn turn, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(bot);
        ArgumentNullException.ThrowIfNull(key);
        ArgumentNullException.ThrowIfNull(turn);
        var activity = new Activity(ActivityTypes.Message, id: turn.Id, channelId: Channel, conversation: new ConversationAccount(id: key.Hash));
        using var context = new TurnContext(this, activity);
        context.TurnState.Add(new OwnTurn(key, turn));
        await RunPipelineAsync(context, bot.OnTurnAsync, cancellation).ConfigureAwait(false);
        var replies = _sent.Select(a => a.ChannelData).OfType<TypedReply>().Select(t => t.Reply).ToImmutableArray();
        return replies.Length == _sent.Count ? replies : null;
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
