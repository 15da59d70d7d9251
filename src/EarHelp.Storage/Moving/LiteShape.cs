using System.Collections.Frozen;
using System.Collections.Immutable;
using EarHelp.Storage.Records;

namespace EarHelp.Storage.Moving;

/// <summary>In which collection the rows of a part stand, and under which names their values do, column by column.</summary>
sealed record LiteShape(string Collection, ImmutableArray<string> Fields)
{
    /// <summary>The field of how to reach who asked, which stands in a collection of its own.</summary>
    public const string Elsewhere = "";

    static readonly FrozenDictionary<Part, LiteShape> Shapes = new Dictionary<Part, LiteShape>
    {
        [Part.Turns] = new(TurnDocuments.Collection, ["c", "n", "t", "a", "e", "v", "f", "b", "p", "h"]),
        [Part.Keys] = new(KeyDocuments.Collection, ["_id", "c", "o", "x"]),
        [Part.Requests] = new(RequestDocuments.Collection, ["_id", "v", "b", Elsewhere]),
        [Part.Visits] = new(VisitDocuments.Collection, ["_id", "p", "a", "b"]),
        [Part.Incidents] = new(IncidentDocuments.Collection, ["_id", "c", "b"]),
        [Part.Callers] = new(CallerDocuments.Collection, ["_id", "y", "a", "n", "f"]),
        [Part.FollowUps] = new(FollowUpDocuments.Collection, ["_id", "v", "b"]),
        [Part.Closings] = new(ClosingDocuments.Collection, ["_id", "d", "l"]),
        [Part.Staff] = new(StaffDocuments.Collection, ["_id", "v", "b"]),
        [Part.SealingKeys] = new(SealingKeyDocuments.Collection, ["_id", "b"]),
        [Part.Editions] = new(EditionDocuments.Collection, ["_id", "b"]),
        [Part.Ledger] = new(ChainDocuments.Ledger, ["_id", "b", "p", "h"]),
        [Part.Audit] = new(ChainDocuments.Audit, ["_id", "b", "p", "h"]),
    }.ToFrozenDictionary();

    public static LiteShape Of(Part part) => Shapes[part];
}
