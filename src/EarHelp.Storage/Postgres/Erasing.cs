using EarHelp.Storage.Backups;
using Npgsql;

namespace EarHelp.Storage.Postgres;

/// <summary>
/// Removes conversations with all that hangs on them. The conversation's row goes first: whoever is appending to it at that moment is
/// waited for, and its turn is seen and removed by the next statement.
/// </summary>
static class Erasing
{
    const string OneSweepAtATime = "select pg_try_advisory_xact_lock(hashtext('earhelp sweep ' || current_schema()))";

    const string Unfinished = """
        select c.id from conversations c
        where not c.finished and c.last_at < $1
            and not exists (select from requests r where r.conversation = c.id)
            and not exists (select from visits v where v.conversation = c.id)
        """;

    /// <summary>These conversations, and those that a visit joins to one of them; with a bound, only those to which nothing came meanwhile.</summary>
    const string Joined = """
        with recursive joined (id) as (
            select unnest($1::text[])
            union
            select case when v.conversation = j.id then v.before else v.conversation end
            from visits v join joined j on v.conversation = j.id or v.before = j.id
            where v.before is not null
        )
        delete from conversations c using joined j
        where c.id = j.id and ($2::bigint is null or (not c.finished and c.last_at < $2::bigint))
        returning c.id
        """;

    /// <param name="list">See <see cref="StoreOptions.ErasureList"/>.</param>
    public static async Task<bool> EraseAsync(NpgsqlConnection connection, string conversation, string? list, CancellationToken cancellation)
    {
        var erased = await EraseAsync(connection, [conversation], null, cancellation).ConfigureAwait(false);
        if (erased.Count > 0)
            ErasureList.Add(list, erased);
        foreach (var one in erased)
            await Bulletin.SayAsync(connection, Bulletin.Erased + one, cancellation).ConfigureAwait(false);
        return erased.Count > 0;
    }

    /// <returns>How many; 0 also if another node sweeps at this moment.</returns>
    public static Task<int> SweepAsync(NpgsqlConnection connection, long lastTurnBefore, CancellationToken cancellation) =>
        SweepAsync(connection, Unfinished, lastTurnBefore, lastTurnBefore, cancellation);

    /// <returns>How many conversations; 0 also if another node sweeps at this moment.</returns>
    public static Task<int> SweepVisitsAsync(NpgsqlConnection connection, long before, CancellationToken cancellation) =>
        SweepAsync(connection, "select conversation from visits where at < $1", before, null, cancellation);

    static async Task<int> SweepAsync(NpgsqlConnection connection, string due, long before, long? lastTurnBefore, CancellationToken cancellation)
    {
        if (await connection.FirstAsync(OneSweepAtATime, cancellation).ConfigureAwait(false) is not true)
            return 0;
        var swept = await connection.ListAsync(due, r => r.GetString(0), cancellation, before).ConfigureAwait(false);
        if (swept.Count == 0)
            return 0;
        var erased = await EraseAsync(connection, swept, lastTurnBefore, cancellation).ConfigureAwait(false);
        await Bulletin.SayAsync(connection, Bulletin.Swept, cancellation).ConfigureAwait(false);
        return erased.Count;
    }

    static async Task<List<string>> EraseAsync(NpgsqlConnection connection, List<string> conversations, long? lastTurnBefore, CancellationToken cancellation)
    {
        var erased = await connection.ListAsync(Joined, r => r.GetString(0), cancellation, conversations.ToArray(), (object?)lastTurnBefore ?? DBNull.Value).ConfigureAwait(false);
        if (erased.Count > 0)
            await connection.DoAsync("delete from turns where conversation = any($1)", cancellation, (object)erased.ToArray()).ConfigureAwait(false);
        return erased;
    }
}
