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
        delete from conversations c
        where not c.finished and c.last_at < $1 and not exists (select from requests r where r.conversation = c.id)
        returning c.id
        """;

    public static async Task<bool> EraseAsync(NpgsqlConnection connection, string conversation, CancellationToken cancellation)
    {
        if (await connection.DoAsync("delete from conversations where id = $1", cancellation, conversation).ConfigureAwait(false) == 0)
            return false;
        await connection.DoAsync("delete from turns where conversation = $1", cancellation, conversation).ConfigureAwait(false);
        return await Bulletin.SayAsync(connection, Bulletin.Erased + conversation, cancellation).ConfigureAwait(false);
    }

    /// <returns>How many; 0 also if another node sweeps at this moment.</returns>
    public static async Task<int> SweepAsync(NpgsqlConnection connection, long lastTurnBefore, CancellationToken cancellation)
    {
        if (await connection.FirstAsync(OneSweepAtATime, cancellation).ConfigureAwait(false) is not true)
            return 0;
        var swept = await connection.ListAsync(Unfinished, r => r.GetString(0), cancellation, lastTurnBefore).ConfigureAwait(false);
        if (swept.Count == 0)
            return 0;
        await connection.DoAsync("delete from turns where conversation = any($1)", cancellation, (object)swept.ToArray()).ConfigureAwait(false);
        await Bulletin.SayAsync(connection, Bulletin.Swept, cancellation).ConfigureAwait(false);
        return swept.Count;
    }
}
