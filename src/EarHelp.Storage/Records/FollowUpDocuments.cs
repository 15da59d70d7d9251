using System.Collections.Immutable;
using EarHelp.Clinic.CheckIns;
using EarHelp.Clinic.Records;
using LiteDB;

namespace EarHelp.Storage.Records;

/// <summary>Follow-ups by their conversation.</summary>
static class FollowUpDocuments
{
    public const string Collection = "followups";

    /// <summary>Version n if n-1 is the last and the conversation is there. For the one writer.</summary>
    public static bool Put(LiteDatabase database, FollowUp followUp)
    {
        var all = database.GetCollection(Collection);
        if ((all.FindById(followUp.Conversation)?["v"].AsInt32 ?? 0) != followUp.Version - 1 || !TurnDocuments.Of(database, followUp.Conversation).Any())
            return false;
        all.Upsert(new BsonDocument { ["_id"] = followUp.Conversation, ["v"] = followUp.Version, ["b"] = FollowUpJson.Write(followUp) });
        return true;
    }

    public static FollowUp? Find(LiteDatabase database, string conversation) =>
        database.GetCollection(Collection).FindById(conversation) is { } found ? FollowUpJson.Read(found["b"].AsBinary) : null;

    public static ImmutableArray<FollowUp> All(LiteDatabase database) => [.. database.GetCollection(Collection).FindAll().ToList().Select(d => FollowUpJson.Read(d["b"].AsBinary))];

    public static void Delete(LiteDatabase database, string conversation) => database.GetCollection(Collection).Delete(conversation);
}
