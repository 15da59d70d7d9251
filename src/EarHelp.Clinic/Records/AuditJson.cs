using System.Collections.Immutable;
using System.Text.Json;
using System.Text.Json.Serialization;
using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Keeping;
using EarHelp.Conversation.Records;

namespace EarHelp.Clinic.Records;

/// <summary>The written form of an entry of the audit trail; opaque to a store.</summary>
public static class AuditJson
{
    static readonly AuditJsonContext Context = new(RecordJson.Options(new JsonStringEnumConverter<AuditDeed>(JsonNamingPolicy.CamelCase)));

    public static byte[] Write(AuditEntry entry) => JsonSerializer.SerializeToUtf8Bytes(entry, Context.AuditEntry);

    public static byte[] Write(AuditRead trail) => JsonSerializer.SerializeToUtf8Bytes(trail, Context.AuditRead);

    /// <exception cref="JsonException">The bytes are no entry that this program knows.</exception>
    public static AuditEntry Read(ReadOnlySpan<byte> json) =>
        JsonSerializer.Deserialize(json, Context.AuditEntry) ?? throw new JsonException("An entry is an object, not null.");

    /// <exception cref="JsonException">The bytes are no audit trail that this program knows.</exception>
    public static AuditRead ReadTrail(ReadOnlySpan<byte> json) =>
        JsonSerializer.Deserialize(json, Context.AuditRead) ?? throw new JsonException("An audit trail is an object, not null.");
}

[JsonSourceGenerationOptions(GenerationMode = JsonSourceGenerationMode.Metadata)]
[JsonSerializable(typeof(AuditEntry))]
[JsonSerializable(typeof(AuditRead))]
sealed partial class AuditJsonContext : JsonSerializerContext;
