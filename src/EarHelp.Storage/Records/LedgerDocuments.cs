using System.Collections.Immutable;
using EarHelp.Conversation.Keeping;
using LiteDB;

namespace EarHelp.Storage.Records;

/// <summary>The ledger of editions, one document a record; the key makes "append n if n-1 is the last" unique.</summary>
static class LedgerDocuments
{
    public const string Collection = "ledger";

    /// <exception cref="LedgerDamagedException">A record was changed after it was made, or is missing.</exception>
    public static ImmutableArray<LedgerRecord> Load(LiteDatabase database)
    {
        var records = ImmutableArray.CreateBuilder<LedgerRecord>();
        foreach (var record in database.GetCollection(Collection).FindAll().OrderBy(d => d["_id"].AsInt32).Select(Read))
        {
            if (!record.Follows(records.Count == 0 ? null : records[^1]))
                throw new LedgerDamagedException($"The ledger of editions is damaged at record {record.Number}: it does not follow from the one before.");
            records.Add(record);
        }

        return records.ToImmutable();
    }

    /// <returns>False if it does not follow the last one.</returns>
    public static bool Append(LiteDatabase database, LedgerRecord record)
    {
        var ledger = database.GetCollection(Collection);
        var last = ledger.FindById(record.Number - 1) is { } found ? Read(found) : null;
        if (ledger.FindById(record.Number) is not null || !record.Follows(last))
            return false;
        ledger.Insert(Write(record));
        return true;
    }

    static BsonDocument Write(LedgerRecord record) => new()
    {
        ["_id"] = record.Number,
        ["b"] = record.Body.ToArray(),
        ["p"] = record.PreviousHash,
        ["h"] = record.Hash,
    };

    static LedgerRecord Read(BsonDocument document) =>
        new(document["_id"].AsInt32, document["b"].AsBinary, document["p"].AsString, document["h"].AsString);
}
