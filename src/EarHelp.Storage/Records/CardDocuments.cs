using System.Collections.Immutable;
using EarHelp.Conversation.Keeping;
using LiteDB;

namespace EarHelp.Storage.Records;

/// <summary>One card a conversation: about when its last turn was and whether it is finished, so that a sweep need not read all turns.</summary>
static class CardDocuments
{
    public const string Collection = "cards";

    /// <summary>How far a card may lag behind the last turn, so that not every turn writes it. Unit: milliseconds.</summary>
    public const long Behind = 60 * 60 * 1000;

    public static BsonDocument Write(TurnRecord last) => new()
    {
        ["_id"] = last.Conversation,
        ["a"] = last.AtUnixMilliseconds,
        ["f"] = last.Finished,
    };

    /// <summary>Every conversation, sorted.</summary>
    public static ImmutableArray<string> All(LiteDatabase database) =>
        [.. database.GetCollection(Collection).FindAll().Select(d => d["_id"].AsString).Order(StringComparer.Ordinal)];

    /// <summary>
    /// A card may be behind by <see cref="Behind"/>; what it says is confirmed by the last turn itself. A conversation from which a
    /// visit was asked for stays as long as its request, and one after a visit as long as that.
    /// </summary>
    public static List<string> UnfinishedBefore(LiteDatabase database, long lastTurnBefore) =>
    [
        .. database.GetCollection(Collection)
            .FindAll()
            .Where(d => !d["f"].AsBoolean && d["a"].AsInt64 < lastTurnBefore)
            .Select(d => d["_id"].AsString)
            .Where(c => !RequestDocuments.Has(database, c) && !VisitDocuments.Has(database, c) && TurnDocuments.Of(database, c).All(t => t["a"].AsInt64 < lastTurnBefore)),
    ];
}
