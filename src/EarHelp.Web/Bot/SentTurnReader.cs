using System.Text.Json;
using EarHelp.Conversation.Turns;
using Microsoft.Bot.Schema;
using Newtonsoft.Json;

namespace EarHelp.Web.Bot;

/// <summary>Reads an activity as a turn. The activity's id is the turn's id, so that a message sent twice is one turn.</summary>
public static class SentTurnReader
{
    /// <summary>Longer than any a channel makes; a longer one is refused.</summary>
    const int LongestId = 256;

    public static SentTurn Read(Activity activity)
    {
        ArgumentNullException.ThrowIfNull(activity);
        if (activity.Type is not (ActivityTypes.Message or ActivityTypes.ConversationUpdate))
            return new SentTurn.NotForUs();
        if (activity.Id is not { Length: > 0 and <= LongestId } id || activity.Conversation?.Id is not { Length: > 0 })
            return new SentTurn.Unreadable("An activity needs an id of its own and a conversation id.");
        if (activity.Type == ActivityTypes.ConversationUpdate)
            return IsSomebodyNew(activity)
                ? new SentTurn.Taken(new Turn(id, null, new TurnContent.Begin(activity.Locale ?? string.Empty)))
                : new SentTurn.NotForUs();
        return SentValue(activity) is { } value ? SentValueReader.Read(id, value, activity.Text) : Typed(id, activity.Text);
    }

    static SentTurn Typed(string id, string? text) =>
        string.IsNullOrWhiteSpace(text)
            ? new SentTurn.NotForUs()
            : new SentTurn.Taken(new Turn(id, null, new TurnContent.Typed(text)));

    static bool IsSomebodyNew(Activity activity) =>
        activity.MembersAdded?.Any(m => !string.Equals(m.Id, activity.Recipient?.Id, StringComparison.Ordinal)) ?? false;

    /// <summary>The activity's value, or else its channel data, if it is an object that says something to us.</summary>
    static JsonElement? SentValue(Activity activity) =>
        AsObject(activity.Value) ?? (AsObject((object?)activity.ChannelData) is { } data && SentValueReader.SaysSomething(data) ? data : null);

    static JsonElement? AsObject(object? sent)
    {
        if (sent is null or string)
            return null;
        using var document = JsonDocument.Parse(JsonConvert.SerializeObject(sent));
        return document.RootElement.ValueKind == JsonValueKind.Object ? document.RootElement.Clone() : null;
    }
}
