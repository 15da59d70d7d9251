using System.Collections.Immutable;
using EarHelp.Clinic.Keeping;
using LiteDB;

namespace EarHelp.Storage.Records;

/// <summary>Sealing keys by their name.</summary>
static class SealingKeyDocuments
{
    public const string Collection = "sealingkeys";

    /// <summary>False if it is there already. For the one writer.</summary>
    public static bool Add(LiteDatabase database, SealingKey key)
    {
        var keys = database.GetCollection(Collection);
        if (keys.FindById(key.Name) is not null)
            return false;
        keys.Insert(new BsonDocument { ["_id"] = key.Name, ["b"] = key.Body });
        return true;
    }

    public static ImmutableArray<SealingKey> All(LiteDatabase database) =>
        [.. database.GetCollection(Collection).FindAll().Select(d => new SealingKey(d["_id"].AsString, d["b"].AsString)).OrderBy(k => k.Name, StringComparer.Ordinal)];
}
