using System.Collections.Immutable;

namespace EarHelp.Storage.Moving;

/// <summary>One kind of thing that is kept, as rows that are the same in every store. What a store works out from them is no part of it.</summary>
sealed record Part(string Name, ImmutableArray<Column> Columns)
{
    public static Part Turns { get; } = Of(
        "turns",
        Text("conversation"), Number("number"), Text("turn_id"), LongNumber("at"), Text("edition"), Text("engine"), Flag("finished"),
        Bytes("body"), Text("previous_hash"), Text("hash"));

    public static Part Keys { get; } = Of("keys", Text("hash"), Text("conversation"), Flag("one_time"), LongNumber("expires"));

    public static Part Requests { get; } = Of("requests", Text("conversation"), Number("version"), Bytes("body"), Bytes("contact") with { MayBeMissing = true });

    public static Part Visits { get; } = Of("visits", Text("conversation"), Text("before") with { MayBeMissing = true }, LongNumber("at"), Bytes("body"));

    public static Part Incidents { get; } = Of("incidents", Text("id"), Text("conversation"), Bytes("body"));

    public static Part Callers { get; } = Of(
        "callers",
        Text("conversation"), Text("held_by"), LongNumber("at"), Text("number"), Text("followed_up_by") with { MayBeMissing = true });

    public static Part FollowUps { get; } = Of("follow_ups", Text("conversation"), Number("version"), Bytes("body"));

    public static Part Closings { get; } = Of("closings", LongNumber("set_at"), Text("last_day"), LongNumber("lifted_at") with { MayBeMissing = true });

    public static Part Staff { get; } = Of("staff", Text("id"), Number("version"), Bytes("body"));

    public static Part SealingKeys { get; } = Of("sealing_keys", Text("name"), Text("body"));

    public static Part Editions { get; } = Of("editions", Text("id"), Bytes("sources"));

    public static Part Ledger { get; } = Of("ledger", Number("number"), Bytes("body"), Text("previous_hash"), Text("hash"));

    public static Part Audit { get; } = Of("audit", Number("number"), Bytes("body"), Text("previous_hash"), Text("hash"));

    /// <summary>
    /// In the order in which they are read and written. Of a store in use what is read later may be newer: editions follow the turns that they
    /// decided, and the audit trail follows what it speaks of.
    /// </summary>
    public static ImmutableArray<Part> All { get; } = [Turns, Keys, Requests, Visits, Incidents, Callers, FollowUps, Closings, Staff, SealingKeys, Editions, Ledger, Audit];

    /// <summary>Where the conversation stands to which a row belongs; -1: rows belong to none.</summary>
    public int ConversationAt { get; } = Columns.IndexOf(Columns.FirstOrDefault(c => c.Name == "conversation")!);

    static Part Of(string name, params ImmutableArray<Column> columns) => new(name, columns);

    static Column Text(string name) => new(name, ColumnKind.Text);

    static Column Number(string name) => new(name, ColumnKind.Number);

    static Column LongNumber(string name) => new(name, ColumnKind.LongNumber);

    static Column Flag(string name) => new(name, ColumnKind.Flag);

    static Column Bytes(string name) => new(name, ColumnKind.Bytes);
}
