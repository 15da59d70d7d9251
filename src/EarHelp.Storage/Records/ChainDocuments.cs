using System.Collections.Immutable;
using EarHelp.Conversation.Keeping;
using LiteDB;

namespace EarHelp.Storage.Records;

/// <summary>Chains of records that are only ever added to, one document a record; the key makes "append n if n-1 is the last" unique.</summary>
static class ChainDocuments
{
    public const string Ledger = "ledger";

    public const string Audit = "audit";

    /// <summary>For every collection of a chain: the first record that does not follow from the one before, or null.</summary>
    public static int? FirstDamaged(IEnumerable<ChainedRecord> records)
    {
        ChainedRecord? last = null;
        foreach (var record in records)
        {
            if (!record.Follows(last))
                return record.Number;
            last = record;
        }

        return null;
    }

    /// <summary>All records in order, as they are.</summary>
    public static ImmutableArray<ChainedRecord> All(LiteDatabase database, string collection) =>
        [.. database.GetCollection(collection).FindAll().Select(Read).OrderBy(r => r.Number)];

    /// <exception cref="LedgerDamagedException">A record of the ledger was changed after it was made, or is missing.</exception>
    public static ImmutableArray<ChainedRecord> LoadLedger(LiteDatabase database)
    {
        var records = All(database, Ledger);
        return FirstDamaged(records) is { } damaged
            ? throw new LedgerDamagedException($"The ledger of editions is damaged at record {damaged}: it does not follow from the one before.")
            : records;
    }

    /// <returns>False if it does not follow the last one.</returns>
    public static bool Append(LiteDatabase database, string collection, ChainedRecord record)
    {
        var chain = database.GetCollection(collection);
        var last = chain.FindById(record.Number - 1) is { } found ? Read(found) : null;
        if (chain.FindById(record.Number) is not null || !record.Follows(last))
            return false;
        chain.Insert(Write(record));
        return true;
    }

    /// <summary>Adds a body after whatever stands last. For the one writer.</summary>
    public static ChainedRecord Append(LiteDatabase database, string collection, ReadOnlyMemory<byte> body)
    {
        var chain = database.GetCollection(collection);
        var last = chain.FindOne(Query.All(Query.Descending)) is { } found ? Read(found) : null;
        var record = ChainedRecord.After(last, body);
        chain.Insert(Write(record));
        return record;
    }

    static BsonDocument Write(ChainedRecord record) => new()
    {
        ["_id"] = record.Number,
        ["b"] = record.Body.ToArray(),
        ["p"] = record.PreviousHash,
        ["h"] = record.Hash,
    };

    static ChainedRecord Read(BsonDocument document) =>
        new(document["_id"].AsInt32, document["b"].AsBinary, document["p"].AsString, document["h"].AsString);
}
