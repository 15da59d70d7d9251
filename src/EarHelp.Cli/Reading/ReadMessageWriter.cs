using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using EarHelp.Triage.Editions;
using EarHelp.Understanding.Messages;

namespace EarHelp.Cli.Reading;

/// <summary>Writes what a message says, for programs and for people.</summary>
public sealed class ReadMessageWriter(PhraseBook book, Wording wording)
{
    static readonly JsonWriterOptions AsTyped = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public string Json(MessageLine message)
    {
        ArgumentNullException.ThrowIfNull(message);
        var said = MessageReader.Read(book, message.Text, message.Day);
        using var bytes = new MemoryStream();
        using (var json = new Utf8JsonWriter(bytes, AsTyped))
        {
            json.WriteStartObject();
            json.WritePropertyName("id");
            json.WriteRawValue(message.Id);
            WriteFacts(json, "facts", said.Facts.Where(f => f.Standing != Standing.Denied), message.Text);
            WriteFacts(json, "denied", said.Facts.Where(f => f.Standing == Standing.Denied), message.Text);
            WriteTopic(json, TopicReader.Read(book, message.Text)?.Found);
            json.WriteString("signpost", SignpostOf(said));
            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(bytes.ToArray());
    }

    public string Explain(MessageLine message)
    {
        ArgumentNullException.ThrowIfNull(message);
        var said = MessageReader.Read(book, message.Text, message.Day);
        var text = new StringBuilder(message.Text).AppendLine();
        foreach (var fact in said.Facts.OrderBy(f => f.Span.Start))
            text.AppendLine(CultureInfo.InvariantCulture, $"  {Name(fact)} = {fact.Written}{(fact.Ear is { } ear ? $" ({ear})" : "")}, {Certainty(fact)}: \"{message.Text.AsSpan(fact.Span.Start, fact.Span.Length)}\"");
        foreach (var mark in said.Marks.OrderBy(m => m.Span.Start))
            text.AppendLine(CultureInfo.InvariantCulture, $"  {mark.Kind}: \"{message.Text.AsSpan(mark.Span.Start, mark.Span.Length)}\"");
        foreach (var signpost in said.Signposts)
            text.AppendLine(CultureInfo.InvariantCulture, $"  signpost {wording.Signposts[signpost.Signpost].Id}: \"{message.Text.AsSpan(signpost.Span.Start, signpost.Span.Length)}\"");
        foreach (var topic in TopicReader.Read(book, message.Text)?.Nearest ?? [])
            text.AppendLine(CultureInfo.InvariantCulture, $"  topic {topic.Id}: {topic.Score:0.0}");
        return text.ToString();
    }

    void WriteFacts(Utf8JsonWriter json, string name, IEnumerable<SaidFact> facts, string text)
    {
        json.WriteStartArray(name);
        foreach (var fact in facts)
        {
            json.WriteStartObject();
            json.WriteString("fact", Name(fact));
            json.WriteString("value", fact.Written);
            if (fact.Ear is { } ear)
                json.WriteString("ear", ear);
            json.WriteString("certainty", Certainty(fact));
            json.WriteString("words", text.AsSpan(fact.Span.Start, fact.Span.Length));
            json.WriteNumber("start", fact.Span.Start);
            json.WriteNumber("length", fact.Span.Length);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    static void WriteTopic(Utf8JsonWriter json, RankedTopic? topic)
    {
        json.WritePropertyName("topic");
        if (topic is null)
        {
            json.WriteNullValue();
            return;
        }

        json.WriteStartObject();
        json.WriteString("id", topic.Id);
        json.WriteNumber("score", Math.Round(topic.Score, 2));
        json.WriteEndObject();
    }

    /// <summary>One that is listed with phrases of its own, else one whose fact is said.</summary>
    string? SignpostOf(Said said)
    {
        foreach (var signpost in said.Signposts.Where(s => s.Standing == Standing.Affirmed))
            return wording.Signposts[signpost.Signpost].Id;
        var facts = said.Facts.Where(f => f.Standing == Standing.Affirmed).Select(Name).ToHashSet(StringComparer.Ordinal);
        return wording.Signposts.FirstOrDefault(s => facts.Contains(s.Id))?.Id;
    }

    string Name(SaidFact fact) => book.Dialog.Facts[fact.Fact].Id;

    static string Certainty(SaidFact fact) => fact.Standing switch
    {
        Standing.Denied => "denied",
        Standing.Past => "past",
        Standing.Supposed => "supposed",
        Standing.OfAnother => "of another",
        Standing.Mentioned => "mentioned",
        _ => fact.IsHedged ? "maybe" : "said",
    };
}
