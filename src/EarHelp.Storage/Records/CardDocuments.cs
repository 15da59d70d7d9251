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

    /// <summary>As far as the card says.</summary>
    public static bool IsUnfinishedBefore(BsonDocument card, long lastTurnBefore) => !card["f"].AsBoolean && card["a"].AsInt64 < lastTurnBefore;

    /// <summary>
    /// A card may be behind by <see cref="Behind"/>; what it says is confirmed by the last turn itself. A conversation from which a
    /// visit was asked for stays as long as its request, and one after a visit as long as that.
    /// </summary>
    public static bool IsOver(LiteDatabase database, string conversation, long lastTurnBefore) =>
        database.GetCollection(Collection).FindById(conversation) is { } card && IsUnfinishedBefore(card, lastTurnBefore)
        && !RequestDocuments.Has(database, conversation) && !VisitDocuments.Has(database, conversation)
        && TurnDocuments.Of(database, conversation).All(t => t["a"].AsInt64 < lastTurnBefore);
}
