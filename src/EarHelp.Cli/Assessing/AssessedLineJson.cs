using System.Buffers;
using System.Collections.Immutable;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Rules;
using NodaTime.Text;

namespace EarHelp.Cli.Assessing;

/// <summary>The written form of an assessment: one line of JSON, its members always in the same order.</summary>
public sealed class AssessedLineJson(Dialog dialog)
{
    static readonly JsonWriterOptions Plain = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public string Write(AssessedLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        var buffer = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(buffer, Plain))
            Write(json, line);
        return Encoding.UTF8.GetString(buffer.WrittenSpan);
    }

    public static string NameOf(AdviceKind kind) => kind switch
    {
        AdviceKind.ToDo => "to do",
        AdviceKind.LeaveAlone => "leave alone",
        AdviceKind.GetHelp => "get help",
        AdviceKind.Protect => "protect",
        _ => throw new System.Diagnostics.UnreachableException(),
    };

    void Write(Utf8JsonWriter json, AssessedLine line)
    {
        var result = line.Result;
        var level = result.Level is { } rank ? dialog.Levels[rank] : null;
        json.WriteStartObject();
        json.WritePropertyName("id");
        if (line.Id is { } id)
            id.WriteTo(json);
        else
            json.WriteNullValue();
        json.WriteString("level", level?.Id);
        json.WriteString("at_least", dialog.Levels[result.AtLeast].Id);
        json.WriteString("at_most", dialog.Levels[result.AtMost].Id);
        if (result.Level is { } settled)
            json.WriteNumber("rank", settled);
        else
            json.WriteNull("rank");
        json.WriteString("seen_within", level?.Iso);
        json.WriteString("seen_by", line.SeenBy is { } by ? InstantPattern.ExtendedIso.Format(by) : null);
        json.WriteStartArray("destinations");
        foreach (var destination in line.Destinations)
            json.WriteStringValue(destination.Id);
        json.WriteEndArray();
        json.WriteString("may_treat", result.MayTreat is { } treat ? treat.Hold is { } hold ? $"not until {hold}" : "yes" : null);
        json.WriteStartArray("advice");
        foreach (var advice in result.Advice)
        {
            json.WriteStartObject();
            json.WriteString("id", dialog.Advice[advice.Item].Id);
            json.WriteString("kind", NameOf(advice.Kind));
            WriteEar(json, advice.Ear);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        WriteList(json, "warnings", line.Warnings);
        WriteList(json, "explanations", line.Explanations);
        WriteList(json, "rules", line.Rules);
        json.WriteBoolean("settled", result.Settled);
        WriteList(json, "open", [.. result.Open.Select(o => new NamedOfEar(dialog.Facts[o.Fact].Id, o.Ear))]);
        json.WriteEndObject();
    }

    static void WriteList(Utf8JsonWriter json, string name, ImmutableArray<NamedOfEar> entries)
    {
        json.WriteStartArray(name);
        foreach (var entry in entries)
        {
            json.WriteStartObject();
            json.WriteString("id", entry.Id);
            WriteEar(json, entry.Ear);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    static void WriteEar(Utf8JsonWriter json, Ear? ear) => json.WriteString("ear", ear switch
    {
        Ear.Left => "left",
        Ear.Right => "right",
        Ear.Either => "either",
        null => null,
        _ => throw new System.Diagnostics.UnreachableException(),
    });
}
