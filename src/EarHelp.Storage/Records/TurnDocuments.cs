using System.Collections.Immutable;
using System.Globalization;
using EarHelp.Conversation.Keeping;
using LiteDB;

namespace EarHelp.Storage.Records;

/// <summary>Turns as documents, one a turn, in a collection whose key makes "append n if n-1 is the last" unique.</summary>
static class TurnDocuments
{
    public const string Collection = "turns";

    const int MostTurns = 99_999_999;

    /// <summary>With its bounds as parameters: LiteDB compiles every new text of an expression to machine code and keeps it for good.</summary>
    const string Between = "$._id BETWEEN @0 AND @1";

    public static string IdOf(string conversation, int number) => string.Create(CultureInfo.InvariantCulture, $"{conversation}:{number:D8}");

    public static BsonDocument Write(TurnRecord record) => new()
    {
        ["_id"] = IdOf(record.Conversation, record.Number),
        ["c"] = record.Conversation,
        ["n"] = record.Number,
        ["t"] = record.TurnId,
        ["a"] = record.AtUnixMilliseconds,
        ["e"] = record.EditionId,
        ["v"] = record.EngineVersion,
        ["f"] = record.Finished,
        ["b"] = record.Body.ToArray(),
        ["p"] = record.PreviousHash,
        ["h"] = record.Hash,
    };

    public static TurnRecord Read(BsonDocument document) => new(
        document["c"].AsString,
        document["n"].AsInt32,
        document["t"].AsString,
        document["a"].AsInt64,
        document["e"].AsString,
        document["v"].AsString,
        document["f"].AsBoolean,
        document["b"].AsBinary,
        document["p"].AsString,
        document["h"].AsString);

    /// <summary>All turns of a conversation in order.</summary>
    public static IEnumerable<BsonDocument> Of(LiteDatabase database, string conversation) =>
        database.GetCollection(Collection)
            .Find(BsonExpression.Create(Between, IdOf(conversation, 0), IdOf(conversation, MostTurns)))
            .OrderBy(d => d["n"].AsInt32);

    /// <exception cref="StoreFailedException">A record was changed after it was made.</exception>
    public static ImmutableArray<TurnRecord> Load(LiteDatabase database, string conversation) =>
        WholeChain.Of(conversation, Of(database, conversation).Select(Read));
}
