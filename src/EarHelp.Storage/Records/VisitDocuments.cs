using System.Collections.Immutable;
using EarHelp.Clinic.Records;
using EarHelp.Clinic.Visits;
using LiteDB;

namespace EarHelp.Storage.Records;

/// <summary>Visits by the conversation that was opened for the time after them.</summary>
static class VisitDocuments
{
    public const string Collection = "visits";

    public static bool Has(LiteDatabase database, string conversation) => database.GetCollection(Collection).FindById(conversation) is not null;

    public static Visit? Find(LiteDatabase database, string conversation) =>
        database.GetCollection(Collection).FindById(conversation) is { } found ? VisitJson.Read(found["b"].AsBinary) : null;

    public static ImmutableArray<Visit> All(LiteDatabase database) =>
        [.. database.GetCollection(Collection).FindAll().ToList().Select(d => VisitJson.Read(d["b"].AsBinary)).OrderByDescending(v => v.At)];

    public static ImmutableArray<string> Before(LiteDatabase database, long unixMilliseconds) =>
        [.. database.GetCollection(Collection).FindAll().Where(d => d["a"].AsInt64 < unixMilliseconds).Select(d => d["_id"].AsString)];

    /// <summary>These conversations, and those that a visit joins to one of them.</summary>
    public static HashSet<string> WithJoined(LiteDatabase database, IEnumerable<string> conversations)
    {
        var pairs = database.GetCollection(Collection).FindAll().Where(d => !d["p"].IsNull).Select(d => (After: d["_id"].AsString, Before: d["p"].AsString)).ToList();
        return Joined.With(conversations, pairs);
    }

    /// <summary>To be called in a transaction of the one writer.</summary>
    public static bool Put(LiteDatabase database, Visit visit)
    {
        if (!TurnDocuments.Of(database, visit.Conversation).Any())
            return false;
        if (!Has(database, visit.Conversation))
            database.GetCollection(Collection).Insert(Write(visit));
        return true;
    }

    /// <summary>To be called in a transaction of the one writer.</summary>
    public static bool Correct(LiteDatabase database, Visit visit) => database.GetCollection(Collection).FindById(visit.Conversation) is { } found
        && (found["b"].AsBinary.AsSpan().SequenceEqual(VisitJson.Write(visit))
            || (VisitJson.Read(found["b"].AsBinary).Version == visit.Version - 1 && database.GetCollection(Collection).Update(Write(visit))));

    public static void Delete(LiteDatabase database, string conversation) => database.GetCollection(Collection).Delete(conversation);

    static BsonDocument Write(Visit visit) => new()
    {
        ["_id"] = visit.Conversation,
        ["a"] = visit.At.ToUnixTimeMilliseconds(),
        ["p"] = visit.Before,
        ["b"] = VisitJson.Write(visit),
    };
}
