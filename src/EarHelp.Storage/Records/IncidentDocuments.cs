using System.Collections.Immutable;
using EarHelp.Clinic.Incidents;
using EarHelp.Clinic.Records;
using LiteDB;

namespace EarHelp.Storage.Records;

/// <summary>Incidents by their identifier, each with its conversation.</summary>
static class IncidentDocuments
{
    public const string Collection = "incidents";

    /// <summary>False if the conversation is not there. For the one writer.</summary>
    public static bool Add(LiteDatabase database, Incident incident)
    {
        if (!TurnDocuments.Of(database, incident.Conversation).Any())
            return false;
        var incidents = database.GetCollection(Collection);
        if (incidents.FindById(incident.Id) is null)
            incidents.Insert(new BsonDocument { ["_id"] = incident.Id, ["c"] = incident.Conversation, ["b"] = IncidentJson.Write(incident) });
        return true;
    }

    public static ImmutableArray<Incident> All(LiteDatabase database) =>
        [.. database.GetCollection(Collection).FindAll().Select(d => IncidentJson.Read(d["b"].AsBinary)).OrderByDescending(i => i.At).ThenBy(i => i.Id, StringComparer.Ordinal)];

    public static void Delete(LiteDatabase database, string conversation)
    {
        var incidents = database.GetCollection(Collection);
        foreach (var id in incidents.FindAll().Where(d => d["c"].AsString == conversation).Select(d => d["_id"]).ToArray())
            incidents.Delete(id);
    }
}
