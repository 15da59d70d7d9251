using System.Buffers;
using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using EarHelp.Proof.Comparing;

namespace EarHelp.Proof.Telling;

/// <summary>A comparison for programs. Exact counts are texts: they are larger than a JSON number holds.</summary>
public static class ComparisonJson
{
    static readonly JsonWriterOptions Readable = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping, Indented = true };

    public static string Write(EditionComparison comparison, ImmutableArray<ChangedExample> examples = default)
    {
        ArgumentNullException.ThrowIfNull(comparison);
        var buffer = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(buffer, Readable))
        {
            json.WriteStartObject();
            json.WriteString("before", comparison.Before);
            json.WriteString("after", comparison.After);
            json.WriteString("patients", comparison.Patients.ToString(CultureInfo.InvariantCulture));
            json.WriteString("changed", comparison.Changed.ToString(CultureInfo.InvariantCulture));
            json.WriteString("bound", comparison.Bound);
            WriteNames(json, "only_before", comparison.OnlyBefore);
            WriteNames(json, "only_after", comparison.OnlyAfter);
            json.WriteStartArray("changes");
            foreach (var change in comparison.Changes)
                Write(json, change);
            json.WriteEndArray();
            json.WriteStartArray("edits");
            foreach (var edit in comparison.Edits)
                Write(json, edit);
            json.WriteEndArray();
            json.WriteStartArray("examples");
            foreach (var example in examples.IsDefault ? [] : examples)
            {
                json.WriteStartObject();
                json.WriteString("name", example.Name);
                json.WriteString("file", example.Spot.File);
                json.WriteNumber("line", example.Spot.Line);
                json.WriteString("before", example.Before);
                json.WriteString("after", example.After);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            WriteTexts(json, comparison);
            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(buffer.WrittenSpan);
    }

    static void Write(Utf8JsonWriter json, Change change)
    {
        json.WriteStartObject();
        json.WriteString("kind", JsonNamingPolicy.SnakeCaseLower.ConvertName(change.Kind.ToString()));
        json.WriteString("id", change.Id);
        json.WriteString("from", change.Before);
        json.WriteString("to", change.After);
        json.WriteString("patients", change.Patients.ToString(CultureInfo.InvariantCulture));
        json.WriteString("example", change.Shown.InWords);
        json.WritePropertyName("answers");
        json.WriteRawValue(change.Shown.Json);
        json.WriteString("before", change.ToldBefore);
        json.WriteString("after", change.ToldAfter);
        json.WriteStartArray("causes");
        foreach (var cause in change.Causes)
            Write(json, cause);
        json.WriteEndArray();
        json.WriteEndObject();
    }

    static void Write(Utf8JsonWriter json, Edit edit)
    {
        json.WriteStartObject();
        json.WriteString("kind", edit.Kind);
        json.WriteString("name", edit.Name);
        json.WriteString("how", edit.How);
        json.WriteString("file", edit.Spot.File);
        json.WriteNumber("line", edit.Spot.Line);
        json.WriteEndObject();
    }

    static void WriteTexts(Utf8JsonWriter json, EditionComparison comparison)
    {
        json.WriteStartArray("texts");
        foreach (var text in comparison.Texts)
        {
            json.WriteStartObject();
            json.WriteString("language", text.Language);
            json.WriteString("name", text.Name);
            json.WriteString("before", Without(text, TextFate.Came));
            json.WriteString("after", Without(text, TextFate.Went));
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    static string Without(TextChange text, TextFate fate) => string.Join(' ', text.Pieces.Where(p => p.Fate != fate).Select(p => p.Words));

    static void WriteNames(Utf8JsonWriter json, string property, IEnumerable<string> names)
    {
        json.WriteStartArray(property);
        foreach (var name in names)
            json.WriteStringValue(name);
        json.WriteEndArray();
    }
}
