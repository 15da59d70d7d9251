using LiteDB;

namespace EarHelp.Storage.Records;

/// <summary>The sources of every edition that was ever served.</summary>
static class EditionDocuments
{
    public const string Collection = "editions";

    public static BsonDocument Write(string id, ReadOnlyMemory<byte> sources) => new() { ["_id"] = id, ["b"] = sources.ToArray() };
}
