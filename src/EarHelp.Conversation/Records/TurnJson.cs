using System.Buffers;
using System.Collections.Immutable;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Turns;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Asking;

namespace EarHelp.Conversation.Records;

/// <summary>The written form of turns and replies, in records and wherever a program reads them.</summary>
public static class TurnJson
{
    static readonly TurnJsonContext Context = new(RecordJson.Options(
        new JsonStringEnumConverter<Ear>(JsonNamingPolicy.CamelCase), new JsonStringEnumConverter<QuestionKind>(JsonNamingPolicy.CamelCase)));

    [ThreadStatic]
    static ArrayBufferWriter<byte>? writtenHere;

    [ThreadStatic]
    static Utf8JsonWriter? writerHere;

    public static byte[] Write(TurnBody body)
    {
        var (buffer, writer) = Writer();
        JsonSerializer.Serialize(writer, body, Context.TurnBody);
        return buffer.WrittenSpan.ToArray();
    }

    /// <summary>The replies alone, as a JSON array.</summary>
    public static byte[] WriteReplies(ImmutableArray<Reply> replies)
    {
        var (buffer, writer) = Writer();
        JsonSerializer.Serialize(writer, replies, Context.ImmutableArrayReply);
        return buffer.WrittenSpan.ToArray();
    }

    public static ImmutableArray<Reply> ReadReplies(ReadOnlySpan<byte> json) =>
        JsonSerializer.Deserialize(json, Context.ImmutableArrayReply);

    /// <summary>A turn as a program may send it.</summary>
    /// <exception cref="JsonException">It is not one.</exception>
    public static Turn ReadTurn(ReadOnlySpan<byte> json) =>
        JsonSerializer.Deserialize(json, Context.Turn) ?? throw new JsonException("A turn is an object, not null.");

    public static byte[] WriteTurn(Turn turn)
    {
        var (buffer, writer) = Writer();
        JsonSerializer.Serialize(writer, turn, Context.Turn);
        return buffer.WrittenSpan.ToArray();
    }

    /// <exception cref="JsonException">The bytes are no turn of a version that this program knows.</exception>
    public static TurnBody Read(ReadOnlySpan<byte> json)
    {
        var body = JsonSerializer.Deserialize(json, Context.TurnBody) ?? throw new JsonException("A record's body is an object, not null.");
        if (body.SchemaVersion is < 1 or > TurnBody.CurrentVersion)
            throw new JsonException($"This record has schemaVersion {body.SchemaVersion}; this program reads 1 to {TurnBody.CurrentVersion}.");
        return body;
    }

    static (ArrayBufferWriter<byte> Buffer, Utf8JsonWriter Writer) Writer()
    {
        var buffer = writtenHere ??= new ArrayBufferWriter<byte>(4096);
        buffer.ResetWrittenCount();
        var writer = writerHere ??= new Utf8JsonWriter(buffer, new JsonWriterOptions { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping });
        writer.Reset(buffer);
        return (buffer, writer);
    }
}

[JsonSourceGenerationOptions(GenerationMode = JsonSourceGenerationMode.Metadata)]
[JsonSerializable(typeof(TurnBody))]
[JsonSerializable(typeof(Turn))]
[JsonSerializable(typeof(ImmutableArray<Reply>))]
sealed partial class TurnJsonContext : JsonSerializerContext;
