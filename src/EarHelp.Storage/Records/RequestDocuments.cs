using System.Collections.Immutable;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Records;
using EarHelp.Clinic.Requests;
using EarHelp.Clinic.Times;
using LiteDB;
using NodaTime;

namespace EarHelp.Storage.Records;

/// <summary>Requests for visits and, in a collection of its own, how to reach who asked; both by their conversation.</summary>
static class RequestDocuments
{
    public const string Collection = "requests";

    public const string Contacts = "contacts";

    public static bool Has(LiteDatabase database, string conversation) => database.GetCollection(Collection).FindById(conversation) is not null;

    public static bool HasContact(LiteDatabase database, string conversation) => database.GetCollection(Contacts).FindById(conversation) is not null;

    public static KeptRequest? Find(LiteDatabase database, string conversation) =>
        database.GetCollection(Collection).FindById(conversation) is { } found ? Read(database, found) : null;

    public static ImmutableArray<KeptRequest> Waiting(LiteDatabase database) =>
        [.. database.GetCollection(Collection).FindAll().Where(d => d["w"].AsBoolean).ToList().Select(d => Read(database, d))];

    public static ImmutableArray<string> ChangedBefore(LiteDatabase database, long unixMilliseconds) =>
        [.. database.GetCollection(Collection).FindAll().Where(d => d["a"].AsInt64 < unixMilliseconds).Select(d => d["_id"].AsString)];

    /// <summary>The times that others than one conversation have at a moment.</summary>
    public static ImmutableArray<VisitTime> Taken(LiteDatabase database, Instant now, string except) =>
    [
        .. database.GetCollection(Collection).FindAll()
            .Where(d => d["t"] == true && d["_id"].AsString != except)
            .ToList()
            .SelectMany(d => RequestJson.ReadRequest(d["b"].AsBinary).TakenAt(now)),
    ];

    /// <summary>Version n if n-1 is the last and the conversation is there. To be called in a transaction of the one writer.</summary>
    public static RequestPut Put(LiteDatabase database, VisitRequest request, ContactDetails? contact)
    {
        var requests = database.GetCollection(Collection);
        if ((requests.FindById(request.Conversation)?["v"].AsInt32 ?? 0) != request.Version - 1)
            return RequestPut.Stale;
        if (!TurnDocuments.Of(database, request.Conversation).Any())
            return RequestPut.Gone;
        var wanted = request.TakenAt(request.ChangedAt).ToList();
        if (wanted.Count > 0 && Taken(database, request.ChangedAt, request.Conversation).Any(t => wanted.Any(t.Overlaps)))
            return RequestPut.TimeTaken;
        requests.Upsert(Write(request));
        var contacts = database.GetCollection(Contacts);
        if (contact is null)
            contacts.Delete(request.Conversation);
        else
            contacts.Upsert(new BsonDocument { ["_id"] = request.Conversation, ["b"] = RequestJson.Write(contact) });
        return RequestPut.Kept;
    }

    public static void Delete(LiteDatabase database, string conversation)
    {
        database.GetCollection(Collection).Delete(conversation);
        database.GetCollection(Contacts).Delete(conversation);
    }

    public static BsonDocument Write(VisitRequest request) => new()
    {
        ["_id"] = request.Conversation,
        ["v"] = request.Version,
        ["w"] = request.State == RequestState.Waiting,
        ["t"] = request.Booked is not null || request.Held is not null,
        ["a"] = request.ChangedAt.ToUnixTimeMilliseconds(),
        ["b"] = RequestJson.Write(request),
    };

    static KeptRequest Read(LiteDatabase database, BsonDocument document)
    {
        var contact = database.GetCollection(Contacts).FindById(document["_id"]);
        return new KeptRequest(RequestJson.ReadRequest(document["b"].AsBinary), contact is null ? null : RequestJson.ReadContact(contact["b"].AsBinary));
    }
}
