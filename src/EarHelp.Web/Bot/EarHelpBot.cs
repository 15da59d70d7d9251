using EarHelp.Conversation.Keeping;
using Microsoft.Bot.Builder;
using Microsoft.Bot.Schema;
using Newtonsoft.Json.Linq;

namespace EarHelp.Web.Bot;

/// <summary>One bot for every channel: it turns activities into turns and replies into activities, and keeps nothing itself.</summary>
public sealed class EarHelpBot(ITakeTurns turns) : IBot
{
    public async Task OnTurnAsync(ITurnContext turnContext, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(turnContext);
        if (turnContext.TurnState.Get<OwnTurn>() is { } own)
        {
            await AnswerAsync(turnContext, own.Key, own.Turn, cancellationToken).ConfigureAwait(false);
            return;
        }

        var activity = turnContext.Activity;
        switch (SentTurnReader.Read(activity))
        {
            case SentTurn.Taken taken:
                await AnswerAsync(turnContext, ChannelKey.Of(activity.ChannelId, activity.Conversation.Id), taken.Turn, cancellationToken).ConfigureAwait(false);
                break;
            case SentTurn.Unreadable unreadable:
                await turnContext.SendActivityAsync(Plain(unreadable.Fault, "unreadable"), cancellationToken).ConfigureAwait(false);
                break;
            case SentTurn.NotForUs:
                break;
            default:
                throw new System.Diagnostics.UnreachableException();
        }
    }

    async Task AnswerAsync(ITurnContext context, ConversationKey key, Conversation.Turns.Turn turn, CancellationToken cancellation)
    {
        var taken = await turns.TakeAsync(key, turn, cancellation).ConfigureAwait(false);
        var activities = taken switch
        {
            TakenTurn.Answered answered => ReplyActivities.Of(answered.Replies, answered.Words, answered.Now),
            TakenTurn.NotSaved notSaved => [Plain(notSaved.EmergencyText, "not saved")],
            _ => throw new System.Diagnostics.UnreachableException(),
        };
        if (activities.Length > 0)
            await context.SendActivitiesAsync(activities, cancellation).ConfigureAwait(false);
    }

    static Activity Plain(string text, string kind) => new(ActivityTypes.Message)
    {
        Text = text,
        TextFormat = TextFormatTypes.Plain,
        ChannelData = new JObject { ["kind"] = kind },
    };
}
