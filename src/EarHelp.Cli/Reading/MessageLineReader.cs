using System.Globalization;
using System.Text.Json;
using NodaTime;

namespace EarHelp.Cli.Reading;

/// <summary>Reads a line of JSON as a message.</summary>
public sealed class MessageLineReader(DateTimeZone zone, TimeProvider clock)
{
    /// <exception cref="JsonException">It is no JSON.</exception>
    /// <exception cref="FormatException">The text is missing, or the time is none.</exception>
    public MessageLine Read(string line)
    {
        using var json = JsonDocument.Parse(line);
        var root = json.RootElement;
        if (root.ValueKind != JsonValueKind.Object || !root.TryGetProperty("text", out var text) || text.ValueKind != JsonValueKind.String)
            throw new FormatException("There is no \"text\".");
        var id = root.TryGetProperty("id", out var given) ? given.GetRawText() : "null";
        return new MessageLine(id, text.GetString()!, root.TryGetProperty("at", out var at) ? DayOf(at) : Today());
    }

    static LocalDate DayOf(JsonElement at) =>
        at.ValueKind == JsonValueKind.String && DateTime.TryParse(at.GetString(), CultureInfo.InvariantCulture, out var time)
            ? LocalDate.FromDateTime(time)
            : throw new FormatException($"\"at\" is no time: {at.GetRawText()}.");

    LocalDate Today() => Instant.FromDateTimeOffset(clock.GetUtcNow()).InZone(zone).Date;
}
