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

    public static KnownKey Known(ConversationKey key, string conversation) => new(conversation, key.ExpiresUnixMilliseconds ?? long.MaxValue);
}
