using LiteDB;

namespace EarHelp.Storage.Records;

/// <summary>A conversation with all that hangs on it.</summary>
static class WholeConversation
{
    /// <param name="keys">The hashes of what opens it.</param>
    /// <returns>What was deleted of the great collections.</returns>
    public static List<(string Collection, BsonValue Id)> Delete(LiteDatabase database, string conversation, IEnumerable<string> keys)
    {
        List<(string Collection, BsonValue Id)> great =
        [
            .. TurnDocuments.Of(database, conversation).Select(d => (TurnDocuments.Collection, d["_id"])),
            (CardDocuments.Collection, conversation),
            .. keys.Select(k => (KeyDocuments.Collection, new BsonValue(k))),
        ];
        foreach (var (collection, id) in great)
            database.GetCollection(collection).Delete(id);
        RequestDocuments.Delete(database, conversation);
        VisitDocuments.Delete(database, conversation);
        IncidentDocuments.Delete(database, conversation);
        CallerDocuments.Delete(database, conversation);
        FollowUpDocuments.Delete(database, conversation);
        return great;
    }
}
