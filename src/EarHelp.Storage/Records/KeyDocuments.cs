using EarHelp.Conversation.Keeping;
using EarHelp.Storage.Writing;
using LiteDB;

namespace EarHelp.Storage.Records;

/// <summary>Hashes of the secrets that open conversations.</summary>
static class KeyDocuments
{
    public const string Collection = "keys";

    public static BsonDocument Write(ConversationKey key, string conversation) => new()
    {
        ["_id"] = key.Hash,
        ["c"] = conversation,
        ["o"] = key.OneTime,
        ["x"] = Known(key, conversation).Expires,
    };

    public static KnownKey? Find(LiteDatabase database, string hash) =>
        database.GetCollection(Collection).FindById(hash) is { } found ? new KnownKey(found["c"].AsString, found["x"].AsInt64) : null;

    /// <summary>The hashes of what opens conversations, by conversation.</summary>
    public static ILookup<string, string> Of(IEnumerable<BsonDocument> keys, IReadOnlyCollection<string> conversations)
    {
        var wanted = conversations.ToHashSet(StringComparer.Ordinal);
        return keys.Where(k => wanted.Contains(k["c"].AsString)).ToLookup(k => k["c"].AsString, k => k["_id"].AsString, StringComparer.Ordinal);
    }

    public static KnownKey Known(ConversationKey key, string conversation) => new(conversation, key.ExpiresUnixMilliseconds ?? long.MaxValue);
}
