using System.Text.Json;
using System.Text.Json.Serialization;
using NodaTime;
using NodaTime.Text;

namespace EarHelp.Conversation.Records;

/// <summary>An instant as ISO 8601 text in UTC: <c>2026-11-20T09:30:00Z</c>.</summary>
public sealed class InstantConverter : JsonConverter<Instant>
{
    public override Instant Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        var parsed = InstantPattern.ExtendedIso.Parse(reader.GetString() ?? string.Empty);
        return parsed.Success ? parsed.Value : throw new JsonException("An instant is written as 2026-11-20T09:30:00Z.");
    }

    public override void Write(Utf8JsonWriter writer, Instant value, JsonSerializerOptions options) =>
        writer.WriteStringValue(InstantPattern.ExtendedIso.Format(value));
}
