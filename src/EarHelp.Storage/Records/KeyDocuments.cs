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
        ["x"] = key.ExpiresUnixMilliseconds ?? long.MaxValue,
    };

    public static KnownKey? Find(LiteDatabase database, string hash) =>
        database.GetCollection(Collection).FindById(hash) is { } found ? new KnownKey(found["c"].AsString, found["x"].AsInt64) : null;

    /// <summary>False if the key opens another conversation.</summary>
    public static bool MayOpen(LiteDatabase database, string hash, string conversation) =>
        Find(database, hash) is not { } found || found.Conversation == conversation;
}
