using System.Buffers;
using System.Globalization;
using System.Text;
using System.Text.Json;
using EarHelp.Conversation.Searching;

namespace EarHelp.Cli.Recalling;

/// <summary>A recall as lines for people, or as JSON for programs. No word of a patient is in it.</summary>
static class RecallText
{
    static readonly JsonWriterOptions Readable = new() { Indented = true, NewLine = "\n" };

    public static string Write(Recall recall, string edition, string rule)
    {
        var text = new StringBuilder();
        foreach (var told in recall.Told)
        {
            text.Append(told.Conversation).Append("  ").Append(At(told)).Append("  turn ").Append(told.Turn)
                .Append("  \"").Append(told.Outcome).Append("\" by ").AppendJoin(", ", told.Rows)
                .Append(told.Decided ? string.Empty : " (another row decided)").Append(told.IsOpen ? "  still open" : "  not open").Append('\n');
        }

        var conversations = recall.Told.DistinctBy(t => t.Conversation).ToArray();
        return text.Append(CultureInfo.InvariantCulture, $"{conversations.Length} kept conversations were told an outcome by {rule} of edition {edition}; {conversations.Count(t => t.IsOpen)} of them are still open.\n").ToString();
    }

    public static string Json(Recall recall, string edition, string rule)
    {
        var buffer = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(buffer, Readable))
        {
            json.WriteStartObject();
            json.WriteString("edition", edition);
            json.WriteString("rule", rule);
            json.WriteStartArray("told");
            foreach (var told in recall.Told)
                Write(json, told);
            json.WriteEndArray();
            json.WriteStartArray("unreadable");
            foreach (var conversation in recall.Unreadable)
                json.WriteStringValue(conversation);
            json.WriteEndArray();
            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(buffer.WrittenSpan) + "\n";
    }

    static void Write(Utf8JsonWriter json, ToldByRule told)
    {
        json.WriteStartObject();
        json.WriteString("conversation", told.Conversation);
        json.WriteNumber("turn", told.Turn);
        json.WriteString("at", At(told));
        json.WriteString("outcome", told.Outcome);
        json.WriteStartArray("rows");
        foreach (var row in told.Rows)
            json.WriteStringValue(row);
        json.WriteEndArray();
        json.WriteBoolean("decided", told.Decided);
        json.WriteBoolean("open", told.IsOpen);
        json.WriteEndObject();
    }

    static string At(ToldByRule told) =>
        DateTimeOffset.FromUnixTimeMilliseconds(told.AtUnixMilliseconds).ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);
}
