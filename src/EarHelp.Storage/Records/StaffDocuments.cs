using System.Collections.Immutable;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Records;
using EarHelp.Clinic.Staff;
using LiteDB;

namespace EarHelp.Storage.Records;

/// <summary>Accounts of staff, one document each. A clinic has few: they are looked through, not indexed.</summary>
static class StaffDocuments
{
    public const string Collection = "staff";

    public static StaffAccount? Find(LiteDatabase database, string id) =>
        database.GetCollection(Collection).FindById(id) is { } found ? StaffJson.Read(found["b"].AsBinary) : null;

    public static ImmutableArray<StaffAccount> All(LiteDatabase database) =>
        [.. database.GetCollection(Collection).FindAll().Select(d => StaffJson.Read(d["b"].AsBinary)).OrderBy(a => a.Id, StringComparer.Ordinal)];

    /// <summary>Version n if n-1 is the last and nobody else has the name. For the one writer.</summary>
    public static StaffPut Put(LiteDatabase database, StaffAccount account)
    {
        var accounts = database.GetCollection(Collection);
        if ((accounts.FindById(account.Id)?["v"].AsInt32 ?? 0) != account.Version - 1)
            return StaffPut.Stale;
        if (account.SignInName.Length > 0 && All(database).Any(a => a.Id != account.Id && a.SignInName == account.SignInName))
            return StaffPut.NameTaken;
        accounts.Upsert(new BsonDocument { ["_id"] = account.Id, ["v"] = account.Version, ["b"] = StaffJson.Write(account) });
        return StaffPut.Kept;
    }
}
