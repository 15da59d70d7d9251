using LiteDB;

namespace EarHelp.Storage.Records;

/// <summary>A conversation with all that hangs on it.</summary>
static class WholeConversation
{
    /// <param name="keys">The hashes of what opens it.</param>
    public static void Delete(LiteDatabase database, string conversation, IEnumerable<string> keys)
    {
        var turns = database.GetCollection(TurnDocuments.Collection);
        foreach (var id in TurnDocuments.Of(database, conversation).Select(d => d["_id"]).ToArray())
            turns.Delete(id);
        database.GetCollection(CardDocuments.Collection).Delete(conversation);
        RequestDocuments.Delete(database, conversation);
        VisitDocuments.Delete(database, conversation);
        IncidentDocuments.Delete(database, conversation);
        CallerDocuments.Delete(database, conversation);
        FollowUpDocuments.Delete(database, conversation);
        foreach (var key in keys)
            database.GetCollection(KeyDocuments.Collection).Delete(key);
    }
}
