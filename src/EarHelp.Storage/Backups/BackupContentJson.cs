using System.Text.Json;
using System.Text.Json.Serialization;

namespace EarHelp.Storage.Backups;

/// <summary>The last line of a backup as JSON.</summary>
static class BackupContentJson
{
    static readonly BackupContentJsonContext Context = new(new JsonSerializerOptions { PropertyNamingPolicy = JsonNamingPolicy.CamelCase });

    public static byte[] Write(BackupContent content) => JsonSerializer.SerializeToUtf8Bytes(content, Context.BackupContent);

    /// <exception cref="JsonException">It is none.</exception>
    public static BackupContent Read(string json) => JsonSerializer.Deserialize(json, Context.BackupContent) ?? throw new JsonException("The value is null.");
}

[JsonSerializable(typeof(BackupContent))]
sealed partial class BackupContentJsonContext : JsonSerializerContext;
