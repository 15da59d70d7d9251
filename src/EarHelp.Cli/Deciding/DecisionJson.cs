using System.Buffers;
using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using EarHelp.Triage.Cells;
using EarHelp.Triage.Tables;

namespace EarHelp.Cli.Deciding;

/// <summary>The written form of what a decision table concludes, one line of JSON.</summary>
public static class DecisionJson
{
    static readonly JsonWriterOptions Plain = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>An object of conclusions, a list of such objects (R, O, C), or one value (C+, C&lt;, C&gt;, C#).</summary>
    public static string Write(DecisionTable table, Decision decision)
    {
        ArgumentNullException.ThrowIfNull(table);
        var buffer = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(buffer, Plain))
        {
            switch (decision)
            {
                case Decision.OneRow one:
                    WriteRow(json, table, one.Values);
                    break;
                case Decision.Several several:
                    json.WriteStartArray();
                    foreach (var row in several.Values)
                        WriteRow(json, table, row);
                    json.WriteEndArray();
                    break;
                case Decision.Aggregate aggregate:
                    WriteValue(json, aggregate.Value);
                    break;
                default:
                    throw new System.Diagnostics.UnreachableException();
            }
        }

        return Encoding.UTF8.GetString(buffer.WrittenSpan);
    }

    static void WriteRow(Utf8JsonWriter json, DecisionTable table, ImmutableArray<FeelValue> values)
    {
        json.WriteStartObject();
        for (var i = 0; i < values.Length; i++)
        {
            json.WritePropertyName(table.Outputs[i].Name);
            WriteValue(json, values[i]);
        }

        json.WriteEndObject();
    }

    static void WriteValue(Utf8JsonWriter json, FeelValue value)
    {
        switch (value)
        {
            case FeelValue.Null:
                json.WriteNullValue();
                break;
            case FeelValue.Number number:
                json.WriteNumberValue(number.Value);
                break;
            case FeelValue.Text text:
                json.WriteStringValue(text.Value);
                break;
            case FeelValue.Truth truth:
                json.WriteBooleanValue(truth.Value);
                break;
            case FeelValue.Day day:
                json.WriteStringValue(day.Value.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));
                break;
            default:
                throw new System.Diagnostics.UnreachableException();
        }
    }
}
