using System.Buffers;
using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using EarHelp.Proof;

namespace EarHelp.Cli.Proving;

/// <summary>What a check found, as JSON for programs. Exact counts of patients are texts: they are larger than a JSON number holds.</summary>
public static class CheckJson
{
    static readonly JsonWriterOptions Readable = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping, Indented = true };

    /// <param name="report">Null: the files have faults, and nothing was proven.</param>
    public static string Write(ImmutableArray<CheckedFinding> findings, ProofReport? report)
    {
        var buffer = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(buffer, Readable))
        {
            json.WriteStartObject();
            json.WriteString("patients", report?.Patients.ToString(CultureInfo.InvariantCulture));
            json.WriteStartArray("facts_that_may_lower");
            foreach (var fact in report?.MayLower ?? [])
                json.WriteStringValue(fact);
            json.WriteEndArray();
            json.WriteStartArray("findings");
            foreach (var finding in findings)
                Write(json, finding);
            json.WriteEndArray();
            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(buffer.WrittenSpan);
    }

    static void Write(Utf8JsonWriter json, CheckedFinding finding)
    {
        json.WriteStartObject();
        json.WriteString("breaks", finding.Rule);
        json.WriteString("severity", finding.IsNotice ? "notice" : "error");
        json.WriteString("fault", finding.Fault);
        json.WriteString("mend", finding.Mend);
        json.WriteStartArray("rows");
        foreach (var spot in finding.Spots)
        {
            json.WriteStartObject();
            json.WriteString("file", spot.File);
            json.WriteNumber("line", spot.Line);
            json.WriteNumber("column", spot.Column);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteString("patients", finding.Patients?.ToString(CultureInfo.InvariantCulture));
        json.WriteString("example", finding.Shown?.InWords);
        json.WritePropertyName("answers");
        if (finding.Shown is { } shown)
            json.WriteRawValue(shown.Json);
        else
            json.WriteNullValue();
        json.WriteEndObject();
    }
}
