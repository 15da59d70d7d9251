using System.Text.Json;
using System.Text.Json.Serialization;
using EarHelp.Clinic.CheckIns;
using EarHelp.Conversation.Records;

namespace EarHelp.Clinic.Records;

/// <summary>The written form of follow-ups; opaque to a store.</summary>
public static class FollowUpJson
{
    static readonly FollowUpJsonContext Context = new(RecordJson.Options(new JsonStringEnumConverter<MessageState>(JsonNamingPolicy.CamelCase)));

    public static byte[] Write(FollowUp followUp) => JsonSerializer.SerializeToUtf8Bytes(followUp, Context.FollowUp);

    /// <exception cref="JsonException">The bytes are no follow-up that this program knows.</exception>
    public static FollowUp Read(ReadOnlySpan<byte> json) =>
        JsonSerializer.Deserialize(json, Context.FollowUp) ?? throw new JsonException("A follow-up is an object, not null.");
}

[JsonSourceGenerationOptions(GenerationMode = JsonSourceGenerationMode.Metadata)]
[JsonSerializable(typeof(FollowUp))]
sealed partial class FollowUpJsonContext : JsonSerializerContext;
