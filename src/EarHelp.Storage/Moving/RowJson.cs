using System.Buffers;
using System.Collections.Immutable;
using System.Text.Json;

namespace EarHelp.Storage.Moving;

/// <summary>A row as one JSON array, always the same bytes for the same values; bytes stand in it as base64.</summary>
static class RowJson
{
    public static byte[] Write(Row row)
    {
        var buffer = new ArrayBufferWriter<byte>(256);
        using (var json = new Utf8JsonWriter(buffer, new JsonWriterOptions { SkipValidation = true }))
        {
            json.WriteStartArray();
            foreach (var value in row.Values)
                Write(json, value);
            json.WriteEndArray();
        }

        return buffer.WrittenSpan.ToArray();
    }

    /// <exception cref="FormatException">It is no row of the part.</exception>
    public static Row Read(Part part, ReadOnlyMemory<byte> json)
    {
        try
        {
            using var document = JsonDocument.Parse(json);
            var values = document.RootElement;
            return values.GetArrayLength() == part.Columns.Length
                ? new Row(part, [.. part.Columns.Select((column, i) => Read(column, values[i]))])
                : throw new FormatException($"A row of {part.Name} has {part.Columns.Length} values, not {values.GetArrayLength()}.");
        }
        catch (Exception fault) when (fault is JsonException or InvalidOperationException)
        {
            throw new FormatException($"A row of {part.Name} cannot be read: {fault.Message}", fault);
        }
    }

    static void Write(Utf8JsonWriter json, object? value)
    {
        switch (value)
        {
            case null: json.WriteNullValue(); break;
            case string text: json.WriteStringValue(text); break;
            case int number: json.WriteNumberValue(number); break;
            case long number: json.WriteNumberValue(number); break;
            case bool flag: json.WriteBooleanValue(flag); break;
            case byte[] bytes: json.WriteBase64StringValue(bytes); break;
            default: throw new ArgumentException($"A row holds no {value.GetType()}.", nameof(value));
        }
    }

    static object? Read(Column column, JsonElement value) => (value.ValueKind, column.Kind) switch
    {
        (JsonValueKind.Null, _) => column.MayBeMissing ? null : throw new FormatException($"The value {column.Name} is missing."),
        (_, ColumnKind.Text) => value.GetString(),
        (_, ColumnKind.Number) => value.GetInt32(),
        (_, ColumnKind.LongNumber) => value.GetInt64(),
        (_, ColumnKind.Flag) => value.GetBoolean(),
        _ => value.GetBytesFromBase64(),
    };
}
