using System.Collections.Immutable;
using EarHelp.Clinic.Keeping;
using LiteDB;
using NodaTime;
using NodaTime.Text;

namespace EarHelp.Storage.Records;

/// <summary>What the clinic closed at once, by the moment at which it was set.</summary>
static class ClosingDocuments
{
    public const string Collection = "closings";

    public static BsonDocument Write(KeptClosing closing) => new()
    {
        ["_id"] = closing.SetAt.ToUnixTimeMilliseconds(),
        ["d"] = LocalDatePattern.Iso.Format(closing.LastDay),
        ["l"] = closing.LiftedAt?.ToUnixTimeMilliseconds(),
    };

    public static ImmutableArray<KeptClosing> All(LiteDatabase database) =>
        [.. database.GetCollection(Collection).FindAll().Select(Read).OrderBy(c => c.SetAt)];

    static KeptClosing Read(BsonDocument document) => new(
        Instant.FromUnixTimeMilliseconds(document["_id"].AsInt64),
        LocalDatePattern.Iso.Parse(document["d"].AsString).Value,
        document["l"].IsNull ? null : Instant.FromUnixTimeMilliseconds(document["l"].AsInt64));
}
