using System.Collections.Immutable;
using EarHelp.Clinic.Callers;
using LiteDB;
using NodaTime;

namespace EarHelp.Storage.Records;

/// <summary>Callers by their conversation.</summary>
static class CallerDocuments
{
    public const string Collection = "callers";

    /// <summary>False if the conversation is not there. For the one writer.</summary>
    public static bool Put(LiteDatabase database, Caller caller)
    {
        if (!TurnDocuments.Of(database, caller.Conversation).Any())
            return false;
        database.GetCollection(Collection).Upsert(new BsonDocument
        {
            ["_id"] = caller.Conversation,
            ["y"] = caller.By,
            ["a"] = caller.At.ToUnixTimeMilliseconds(),
            ["n"] = caller.Number,
            ["f"] = caller.FollowedUpBy,
        });
        return true;
    }

    public static Caller? Find(LiteDatabase database, string conversation) =>
        database.GetCollection(Collection).FindById(conversation) is { } found ? Read(found) : null;

    public static ImmutableArray<Caller> All(LiteDatabase database) => [.. database.GetCollection(Collection).FindAll().Select(Read).OrderByDescending(c => c.At)];

    public static void Delete(LiteDatabase database, string conversation) => database.GetCollection(Collection).Delete(conversation);

    static Caller Read(BsonDocument document) => new(
        document["_id"].AsString,
        document["y"].AsString,
        Instant.FromUnixTimeMilliseconds(document["a"].AsInt64),
        document["n"].AsString,
        document["f"].IsNull ? null : document["f"].AsString);
}
