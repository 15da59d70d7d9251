using System.Text.Json;
using System.Text.Json.Serialization;
using EarHelp.Clinic.Visits;
using EarHelp.Conversation.Records;
using EarHelp.Triage.Answers;

namespace EarHelp.Clinic.Records;

/// <summary>The written form of visits; opaque to a store.</summary>
public static class VisitJson
{
    static readonly VisitJsonContext Context = new(RecordJson.Options(new JsonStringEnumConverter<Ear>(JsonNamingPolicy.CamelCase)));

    public static byte[] Write(Visit visit) => JsonSerializer.SerializeToUtf8Bytes(visit, Context.Visit);

    /// <exception cref="JsonException">The bytes are no visit that this program knows.</exception>
    public static Visit Read(ReadOnlySpan<byte> json) =>
        JsonSerializer.Deserialize(json, Context.Visit) ?? throw new JsonException("A visit is an object, not null.");
}

[JsonSourceGenerationOptions(GenerationMode = JsonSourceGenerationMode.Metadata)]
[JsonSerializable(typeof(Visit))]
sealed partial class VisitJsonContext : JsonSerializerContext;
