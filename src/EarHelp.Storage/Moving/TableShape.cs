using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Globalization;
using EarHelp.Clinic.Records;
using EarHelp.Clinic.Requests;
using EarHelp.Storage.Postgres;
using NodaTime;

namespace EarHelp.Storage.Moving;

/// <summary>In which order the rows of a table are read, and what the table holds besides the values of a row.</summary>
/// <param name="Casts">By column: as what PostgreSQL keeps a value that comes as text.</param>
/// <param name="Added">What is worked out from a row: the column, its type, and the value at this moment.</param>
sealed record TableShape(Part Part, string Order, FrozenDictionary<string, string> Casts, ImmutableArray<(string Name, string Type, Func<Row, Instant, object> Value)> Added)
{
    static readonly FrozenDictionary<Part, TableShape> Shapes = new TableShape[]
    {
        new(Part.Turns, "conversation, number"),
        new(Part.Keys, "hash"),
        new(
            Part.Requests,
            "conversation",
            [
                ("waiting", "boolean", (row, _) => Request(row).State == RequestState.Waiting),
                ("changed_at", "bigint", (row, _) => Request(row).ChangedAt.ToUnixTimeMilliseconds()),
                ("booked", "int8multirange", (row, _) => TimeRanges.Booked(Request(row))),
                ("held_until", "bigint", (row, _) => TimeRanges.HeldUntil(Request(row))),
                ("times", "int8multirange", (row, now) => TimeRanges.Of(Request(row).TakenAt(now))),
            ]),
        new(Part.Visits, "conversation"),
        new(Part.Incidents, "id"),
        new(Part.Callers, "conversation"),
        new(Part.FollowUps, "conversation"),
        new(Part.Closings, "set_at") { Casts = new Dictionary<string, string> { ["last_day"] = "date" }.ToFrozenDictionary() },
        new(Part.Staff, "id", [("sign_in_name", "text", (row, _) => StaffJson.Read(row.At<byte[]>(2)).SignInName)]),
        new(Part.SealingKeys, "name"),
        new(Part.Editions, "id"),
        new(Part.Ledger, "number"),
        new(Part.Audit, "number"),
    }.ToFrozenDictionary(s => s.Part);

    TableShape(Part part, string order, params ImmutableArray<(string, string, Func<Row, Instant, object>)> added)
        : this(part, order, FrozenDictionary<string, string>.Empty, added)
    {
    }

    public string Select { get; } = $"select {string.Join(", ", Part.Columns.Select(c => c.Kind == ColumnKind.Text ? $"{c.Name}::text" : c.Name))} from {Part.Name} order by {Order}";

    public string Insert
    {
        get
        {
            var columns = Part.Columns.Select(c => (c.Name, Type: TypeOf(c.Kind), Cast: Casts.GetValueOrDefault(c.Name)))
                .Concat(Added.Select(a => (a.Name, Type: a.Type == "int8multirange" ? "text" : a.Type, Cast: a.Type == "int8multirange" ? a.Type : null))).ToArray();
            var names = string.Join(", ", columns.Select(c => c.Name));
            var given = string.Join(", ", columns.Select((c, i) => string.Create(CultureInfo.InvariantCulture, $"${i + 1}::{c.Type}[]")));
            return $"insert into {Part.Name} ({names}) select {string.Join(", ", columns.Select(c => c.Cast is null ? c.Name : $"{c.Name}::{c.Cast}"))} from unnest({given}) as g({names})";
        }
    }

    public static TableShape Of(Part part) => Shapes[part];

    static VisitRequest Request(Row row) => RequestJson.ReadRequest(row.At<byte[]>(2));

    static string TypeOf(ColumnKind kind) => kind switch
    {
        ColumnKind.Text => "text",
        ColumnKind.Number => "integer",
        ColumnKind.LongNumber => "bigint",
        ColumnKind.Flag => "boolean",
        _ => "bytea",
    };
}
