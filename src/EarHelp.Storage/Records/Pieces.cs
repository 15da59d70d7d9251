using LiteDB;

namespace EarHelp.Storage.Records;

/// <summary>Reads a collection in short pieces, in the order of its keys.</summary>
static class Pieces
{
    public const int AtOnce = 500;

    /// <summary>With its bound as a parameter: LiteDB compiles every new text of an expression to machine code and keeps it for good.</summary>
    const string Behind = "$._id > @0";

    /// <param name="key">The key of the last document that was read before.</param>
    public static List<BsonDocument> After(ILiteCollection<BsonDocument> collection, BsonValue key) =>
        collection.Query().Where(BsonExpression.Create(Behind, key)).OrderBy("$._id").Limit(AtOnce).ToList();

    /// <summary>Where the next piece begins; null: there is none.</summary>
    public static BsonValue? EndOf(List<BsonDocument> piece) => piece.Count < AtOnce ? null : piece[^1]["_id"];
}
