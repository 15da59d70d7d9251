using System.Collections.Immutable;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Stepping;
using EarHelp.Conversation.Taking;
using EarHelp.Web.Metrics;
using Microsoft.Bot.Builder;
using Microsoft.Bot.Schema;
using Newtonsoft.Json.Linq;
using NodaTime;

namespace EarHelp.Web.Bot;

/// <summary>One bot for every channel: it turns activities into turns and replies into activities, and keeps nothing itself.</summary>
public sealed partial class EarHelpBot(
    TurnTaking turns, ChannelTurns channelTurns, FixedEmergency emergency, ServiceMeter meter, TimeProvider clock, ILogger<EarHelpBot> log) : IBot
{
    public async Task OnTurnAsync(ITurnContext turnContext, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(turnContext);
        if (turnContext.TurnState.Get<OwnTurn>() is { } own)
        {
            var from = clock.GetTimestamp();
            var taken = await turns.TakeAsync(own.Conversation, own.Turn, own.NewKeys, cancellationToken).ConfigureAwait(false);
            meter.Count(taken, clock.GetElapsedTime(from).TotalSeconds);
            turnContext.TurnState.Add<TurnTaken>(taken);
            await SendAsync(turnContext, taken is TurnTaken.Kept kept ? ReplyActivities.Typed(kept.Replies) : [], cancellationToken).ConfigureAwait(false);
            return;
        }

        switch (SentTurnReader.Read(turnContext.Activity))
        {
            case SentTurn.Taken sent:
                await SendAsync(turnContext, await AnswerAsync(turnContext.Activity, sent.Turn, cancellationToken).ConfigureAwait(false), cancellationToken).ConfigureAwait(false);
                break;
            case SentTurn.Unreadable unreadable:
                await SendAsync(turnContext, [Plain(unreadable.Fault, "unreadable")], cancellationToken).ConfigureAwait(false);
                break;
            case SentTurn.NotForUs:
                break;
            default:
                throw new System.Diagnostics.UnreachableException();
        }
    }

    static Task SendAsync(ITurnContext context, Activity[] activities, CancellationToken cancellation) =>
        activities.Length == 0 ? Task.CompletedTask : context.SendActivitiesAsync(activities, cancellation);

    /// <summary>Whatever goes wrong on the way, the person is told what to do in an emergency.</summary>
    async Task<Activity[]> AnswerAsync(Activity activity, Conversation.Turns.Turn turn, CancellationToken cancellation)
    {
        try
        {
            var conversation = ChannelConversation.Of(activity.ChannelId ?? string.Empty, activity.Conversation.Id);
            var from = clock.GetTimestamp();
            var taken = await channelTurns.TakeAsync(conversation, turn, activity.Locale, cancellation).ConfigureAwait(false);
            foreach (var one in taken)
                meter.Count(one, clock.GetElapsedTime(from).TotalSeconds / taken.Count);
            return [.. WithoutOldQuestions(taken).SelectMany(Activities)];
        }
        catch (Exception fault) when (fault is not OperationCanceledException)
        {
            meter.CountFault(fault.GetType().Name);
            LogFault(log, fault.GetType().Name, Environment.NewLine, fault.StackTrace);
            return [NotSaved(null, null, [])];
        }
    }

    /// <summary>A first message begins its conversation and is then taken: the question that the beginning asked is over as soon as another is asked.</summary>
    static IEnumerable<TurnTaken> WithoutOldQuestions(IReadOnlyList<TurnTaken> taken) =>
        taken is [TurnTaken.Kept begun, TurnTaken.Kept answered] && answered.Replies.Any(IsQuestion)
            ? [begun with { Replies = begun.Replies.RemoveAll(IsQuestion) }, answered]
            : taken;

    static bool IsQuestion(Reply reply) => reply is Reply.Ask or Reply.Confirm;

    Activity[] Activities(TurnTaken taken) => taken switch
    {
        TurnTaken.Kept kept => ReplyActivities.Of(
            kept.Replies, kept.Edition.WriterOf(kept.State), Instant.FromDateTimeOffset(clock.GetUtcNow())),
        TurnTaken.NotSaved lost => [NotSaved(lost.Edition, lost.Language, lost.Emergencies)],
        TurnTaken.Unknown => [NotSaved(null, null, [])],
        _ => throw new System.Diagnostics.UnreachableException(),
    };

    Activity NotSaved(ServedEdition? edition, string? language, ImmutableArray<Reply> emergencies) =>
        Plain(emergency.Text(edition, language, emergencies), "not saved");

    static Activity Plain(string text, string kind) => new(ActivityTypes.Message)
    {
        Text = text,
        TextFormat = TextFormatTypes.Plain,
        ChannelData = new JObject { ["kind"] = kind },
    };

    /// <summary>The kind and the place of a fault only: its message could hold what a person wrote.</summary>
    [LoggerMessage(Level = LogLevel.Error, Message = "A turn of a channel failed: {Kind}{NewLine}{Place}")]
    static partial void LogFault(ILogger log, string kind, string newLine, string? place);
}
