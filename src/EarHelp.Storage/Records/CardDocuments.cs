using System.Collections.Immutable;
using EarHelp.Conversation.Keeping;
using LiteDB;

namespace EarHelp.Storage.Records;

/// <summary>One card a conversation: when its last turn was and whether it is finished, so that a sweep need not read turns.</summary>
static class CardDocuments
{
    public const string Collection = "cards";

    public static BsonDocument Write(TurnRecord last) => new()
    {
        ["_id"] = last.Conversation,
        ["a"] = last.AtUnixMilliseconds,
        ["f"] = last.Finished,
    };

    /// <summary>Every conversation, sorted.</summary>
    public static ImmutableArray<string> All(LiteDatabase database) =>
        [.. database.GetCollection(Collection).FindAll().Select(d => d["_id"].AsString).Order(StringComparer.Ordinal)];

    public static List<string> UnfinishedBefore(LiteDatabase database, long lastTurnBefore) =>
    [
        .. database.GetCollection(Collection)
            .FindAll()
            .Where(d => !d["f"].AsBoolean && d["a"].AsInt64 < lastTurnBefore)
            .Select(d => d["_id"].AsString),
    ];
}
