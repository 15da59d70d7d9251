using System.Collections.Immutable;
using System.Text.Json;
using EarHelp.Conversation.Records;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Turns;

namespace EarHelp.Conversation.Taking;

/// <summary>A kept conversation decided again. No turn: there is no such conversation.</summary>
public sealed record Replayed(ImmutableArray<ReplayedTurn> Turns)
{
    /// <summary>Numbers of the turns whose replies do not come out again.</summary>
    public ImmutableArray<int> Differing => [.. Turns.Where(t => !t.IsSame).Select(t => t.Number)];

    /// <summary>A list of <c>{"number","in","out","again"}</c>: what came in, the replies that are kept, and those of now (null: none can be made).</summary>
    public JsonElement ToJson()
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream))
        {
            json.WriteStartArray();
            foreach (var turn in Turns)
                Write(json, turn);
            json.WriteEndArray();
        }

        using var document = JsonDocument.Parse(stream.ToArray());
        return document.RootElement.Clone();
    }

    static void Write(Utf8JsonWriter json, ReplayedTurn turn)
    {
        json.WriteStartObject();
        json.WriteNumber("number", turn.Number);
        json.WritePropertyName("in");
        json.WriteRawValue(TurnJson.WriteTurn(turn.Turn));
        json.WritePropertyName("out");
        json.WriteRawValue(TurnJson.WriteReplies(turn.Kept));
        json.WritePropertyName("again");
        if (turn.Again is { } again)
            json.WriteRawValue(TurnJson.WriteReplies(again));
        else
            json.WriteNullValue();
        json.WriteEndObject();
    }
}

/// <param name="Kept">The replies of the record.</param>
/// <param name="Again">The replies that the turn's own edition gives now; null: that edition, or one before it, is not in the archive.</param>
public sealed record ReplayedTurn(int Number, Turn Turn, ImmutableArray<Reply> Kept, ImmutableArray<Reply>? Again)
{
    public bool IsSame => Again is { } again && TurnJson.WriteReplies(again).AsSpan().SequenceEqual(TurnJson.WriteReplies(Kept));
}
