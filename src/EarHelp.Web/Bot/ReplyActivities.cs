using System.Collections.Immutable;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Telling;
using Microsoft.Bot.Schema;
using NodaTime;

namespace EarHelp.Web.Bot;

/// <summary>Puts typed replies into message activities: text to read, buttons to tap, and the typed reply for a program.</summary>
static class ReplyActivities
{
    public static Activity[] Of(ImmutableArray<Reply> replies, LetterWriter words, Instant now) =>
        [.. replies.Select(r => Of(r, words.Write(r, now), words))];

    /// <summary>Without texts, for a face of this process that words the replies itself.</summary>
    public static Activity[] Typed(ImmutableArray<Reply> replies) =>
        [.. replies.Select(r => new Activity(ActivityTypes.Message) { ChannelData = new TypedReply(r) })];

    static Activity Of(Reply reply, ImmutableArray<LetterPart> parts, LetterWriter words)
    {
        var actions = parts.SelectMany(SuggestedAnswers.Of).ToList();
        return new Activity(ActivityTypes.Message)
        {
            Text = PlainText.Of(parts, words).TrimEnd('\n'),
            TextFormat = TextFormatTypes.Plain,
            InputHint = reply is Reply.Ask or Reply.Confirm ? InputHints.ExpectingInput : InputHints.AcceptingInput,
            SuggestedActions = actions.Count == 0 ? null : new SuggestedActions(actions: actions),
            ChannelData = new TypedReply(reply),
        };
    }
}
