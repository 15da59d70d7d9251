using EarHelp.Conversation.Keeping;
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

    public static string? Find(LiteDatabase database, string hash, long now)
    {
        var found = database.GetCollection(Collection).FindById(hash);
        return found is null || found["x"].AsInt64 <= now ? null : found["c"].AsString;
    }
}
