using System.Text.Json;
using System.Text.Json.Serialization;
using EarHelp.Clinic.Incidents;
using EarHelp.Conversation.Records;

namespace EarHelp.Clinic.Records;

/// <summary>The written form of an incident; opaque to a store.</summary>
public static class IncidentJson
{
    static readonly IncidentJsonContext Context = new(RecordJson.Options());

    public static byte[] Write(Incident incident) => JsonSerializer.SerializeToUtf8Bytes(incident, Context.Incident);

    /// <exception cref="JsonException">The bytes are no incident that this program knows.</exception>
    public static Incident Read(ReadOnlySpan<byte> json) =>
        JsonSerializer.Deserialize(json, Context.Incident) ?? throw new JsonException("An incident is an object, not null.");
}

[JsonSourceGenerationOptions(GenerationMode = JsonSourceGenerationMode.Metadata)]
[JsonSerializable(typeof(Incident))]
sealed partial class IncidentJsonContext : JsonSerializerContext;
