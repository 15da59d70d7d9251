using System.Text.Json;
using System.Text.Json.Serialization;
using EarHelp.Clinic.Staff;
using EarHelp.Conversation.Records;

namespace EarHelp.Clinic.Records;

/// <summary>The written form of an account; opaque to a store.</summary>
public static class StaffJson
{
    static readonly StaffJsonContext Context = new(RecordJson.Options(
        new JsonStringEnumConverter<StaffRole>(JsonNamingPolicy.CamelCase), new JsonStringEnumConverter<StaffState>(JsonNamingPolicy.CamelCase)));

    public static byte[] Write(StaffAccount account) => JsonSerializer.SerializeToUtf8Bytes(account, Context.StaffAccount);

    /// <exception cref="JsonException">The bytes are no account that this program knows.</exception>
    public static StaffAccount Read(ReadOnlySpan<byte> json) =>
        JsonSerializer.Deserialize(json, Context.StaffAccount) ?? throw new JsonException("An account is an object, not null.");
}

[JsonSourceGenerationOptions(GenerationMode = JsonSourceGenerationMode.Metadata)]
[JsonSerializable(typeof(StaffAccount))]
sealed partial class StaffJsonContext : JsonSerializerContext;
