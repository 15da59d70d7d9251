using System.Collections.Immutable;
using EarHelp.Conversation.Keeping;
using EarHelp.Storage.Records;
using EarHelp.Storage.Writing;
using Npgsql;

namespace EarHelp.Storage.Postgres;

/// <summary>Turns as rows. Many are appended by one statement, which is one transaction.</summary>
static class TurnRows
{
    const string Columns = "conversation, number, turn_id, at, edition, engine, finished, body, previous_hash, hash";

    const string Load = $"select {Columns} from turns where conversation = $1 order by number";

    const string Find = $"select {Columns} from turns where conversation = $1 and turn_id = $2";

    /// <summary>
    /// Gives back the conversations whose turn was kept. Whoever moves the conversation's row from n-1 to n has its lock until the commit:
    /// another that waits for it finds n and keeps nothing. Each conversation stands in it once.
    /// </summary>
    const string Append = $"""
        with given as materialized (
            select * from unnest($1::text[], $2::integer[], $3::text[], $4::bigint[], $5::text[], $6::text[], $7::boolean[], $8::bytea[], $9::text[], $10::text[])
                as g({Columns})),
        fresh as materialized (
            select g.* from given g where not exists (select from turns t where t.conversation = g.conversation and t.turn_id = g.turn_id)),
        begun as (
            insert into conversations (id, last_number, last_at, finished)
            select conversation, 1, at, finished from fresh where number = 1 order by conversation
            on conflict do nothing
            returning id),
        moved as (
            update conversations c set last_number = f.number, last_at = f.at, finished = f.finished
            from fresh f
            where c.id = f.conversation and c.last_number = f.number - 1
            returning c.id),
        kept as (
            insert into turns ({Columns})
            select {Columns} from fresh where conversation in (select id from begun union all select id from moved)
            returning conversation),
        opened as (
            insert into keys (hash, conversation, one_time, expires)
            select k.* from unnest($11::text[], $12::text[], $13::boolean[], $14::bigint[]) as k(hash, conversation, one_time, expires)
            where k.conversation in (select conversation from kept)
            order by k.hash
            on conflict (hash) do update set one_time = excluded.one_time, expires = excluded.expires where keys.conversation = excluded.conversation)
        select conversation from kept
        """;

    /// <param name="group">Each conversation at most once.</param>
    public static async Task<HashSet<string>> AppendAsync(NpgsqlConnection connection, IReadOnlyList<AppendRequest> group)
    {
        var keys = group.SelectMany(r => r.Keys.Select(k => (Key: k, r.Record.Conversation))).DistinctBy(k => k.Key.Hash).ToArray();
        var kept = await connection.ListAsync(
            Append,
            row => row.GetString(0),
            CancellationToken.None,
            Column(group, r => r.Conversation),
            Column(group, r => r.Number),
            Column(group, r => r.TurnId),
            Column(group, r => r.AtUnixMilliseconds),
            Column(group, r => r.EditionId),
            Column(group, r => r.EngineVersion),
            Column(group, r => r.Finished),
            Column(group, r => r.Body.ToArray()),
            Column(group, r => r.PreviousHash),
            Column(group, r => r.Hash),
            keys.Select(k => k.Key.Hash).ToArray(),
            keys.Select(k => k.Conversation).ToArray(),
            keys.Select(k => k.Key.OneTime).ToArray(),
            keys.Select(k => k.Key.ExpiresUnixMilliseconds ?? long.MaxValue).ToArray()).ConfigureAwait(false);
        return kept.ToHashSet(StringComparer.Ordinal);
    }

    /// <summary>A turn by the sender's own identifier; null if it is not kept.</summary>
    public static async Task<TurnRecord?> FindAsync(NpgsqlConnection connection, string conversation, string turnId, CancellationToken cancellation) =>
        (await connection.ListAsync(Find, Read, cancellation, conversation, turnId).ConfigureAwait(false)).FirstOrDefault();

    /// <exception cref="StoreFailedException">A record was changed after it was made.</exception>
    public static async Task<ImmutableArray<TurnRecord>> LoadAsync(NpgsqlConnection connection, string conversation, CancellationToken cancellation) =>
        WholeChain.Of(conversation, await connection.ListAsync(Load, Read, cancellation, conversation).ConfigureAwait(false));

    static T[] Column<T>(IReadOnlyList<AppendRequest> group, Func<TurnRecord, T> of)
    {
        var column = new T[group.Count];
        for (var i = 0; i < column.Length; i++)
            column[i] = of(group[i].Record);
        return column;
    }

    static TurnRecord Read(NpgsqlDataReader row) => new(
        row.GetString(0),
        row.GetInt32(1),
        row.GetString(2),
        row.GetInt64(3),
        row.GetString(4),
        row.GetString(5),
        row.GetBoolean(6),
        row.GetFieldValue<byte[]>(7),
        row.GetString(8),
        row.GetString(9));
}
