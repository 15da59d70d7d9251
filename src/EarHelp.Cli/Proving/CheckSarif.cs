using System.Buffers;
using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;

namespace EarHelp.Cli.Proving;

/// <summary>What a check found, for editors and for code hosts: SARIF 2.1.0 (OASIS).</summary>
public static class CheckSarif
{
    public const string Schema = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";

    static readonly JsonWriterOptions Readable = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping, Indented = true };

    public static string Write(ImmutableArray<CheckedFinding> findings)
    {
        var buffer = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(buffer, Readable))
        {
            json.WriteStartObject();
            json.WriteString("$schema", Schema);
            json.WriteString("version", "2.1.0");
            json.WriteStartArray("runs");
            json.WriteStartObject();
            WriteTool(json, findings);
            json.WriteStartArray("results");
            foreach (var finding in findings)
                WriteResult(json, finding);
            json.WriteEndArray();
            json.WriteEndObject();
            json.WriteEndArray();
            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(buffer.WrittenSpan);
    }

    static void WriteTool(Utf8JsonWriter json, ImmutableArray<CheckedFinding> findings)
    {
        json.WriteStartObject("tool");
        json.WriteStartObject("driver");
        json.WriteString("name", "earhelp");
        json.WriteStartArray("rules");
        foreach (var rule in findings.Select(f => f.Rule).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal))
        {
            json.WriteStartObject();
            json.WriteString("id", rule);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
        json.WriteEndObject();
    }

    static void WriteResult(Utf8JsonWriter json, CheckedFinding finding)
    {
        json.WriteStartObject();
        json.WriteString("ruleId", finding.Rule);
        json.WriteString("level", finding.IsNotice ? "note" : "error");
        json.WriteStartObject("message");
        var shown = finding.Shown is null ? "" : $" Example: {finding.Shown.InWords}.";
        json.WriteString("text", $"{finding.Fault}{shown} {finding.Mend}");
        json.WriteEndObject();
        WriteLocations(json, "locations", [.. finding.Spots.Take(1)]);
        if (finding.Spots.Length > 1)
            WriteLocations(json, "relatedLocations", finding.Spots.RemoveAt(0));
        if (finding.Patients is { } patients)
        {
            json.WriteStartObject("properties");
            json.WriteString("patients", patients.ToString(CultureInfo.InvariantCulture));
            if (finding.Shown is { } example)
                json.WriteString("answers", example.Json);
            json.WriteEndObject();
        }

        json.WriteEndObject();
    }

    static void WriteLocations(Utf8JsonWriter json, string name, ImmutableArray<Triage.Texts.SourceSpot> spots)
    {
        json.WriteStartArray(name);
        foreach (var spot in spots)
        {
            json.WriteStartObject();
            json.WriteStartObject("physicalLocation");
            json.WriteStartObject("artifactLocation");
            json.WriteString("uri", string.Join('/', spot.File.Split('/').Select(Uri.EscapeDataString)));
            json.WriteEndObject();
            json.WriteStartObject("region");
            json.WriteNumber("startLine", spot.Line);
            json.WriteNumber("startColumn", spot.Column);
            json.WriteEndObject();
            json.WriteEndObject();
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }
}
