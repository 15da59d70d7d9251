using System.Data;
using Npgsql;

namespace EarHelp.Storage.Postgres;

/// <summary>A lock by name on the server, for all processes that share the database. It ends with its connection at the latest.</summary>
sealed class NamedLock(NpgsqlConnection connection, string name) : IAsyncDisposable
{
    /// <summary>Shared by every service for as long as it listens, so that the database is not moved or filled under them.</summary>
    public const string InUse = "in use";

    const string Key = "(hashtext('earhelp ' || $1 || ' ' || current_schema()))";

    /// <returns>Null: another has it, or shares it.</returns>
    /// <exception cref="Conversation.Keeping.StoreFailedException">The database does not answer.</exception>
    public static ValueTask<NamedLock?> TryTakeAsync(Database database, string name, CancellationToken cancellation) => database.OpenAsync(
        async connection =>
        {
            if (await connection.FirstAsync("select pg_try_advisory_lock" + Key, cancellation, name).ConfigureAwait(false) is true)
                return new NamedLock(connection, name);
            await connection.DisposeAsync().ConfigureAwait(false);
            return (NamedLock?)null;
        },
        cancellation);

    /// <summary>Shares it for as long as something is done on a connection.</summary>
    public static async Task<T> ShareAsync<T>(NpgsqlConnection connection, string name, Func<Task<T>> use, CancellationToken cancellation)
    {
        await connection.DoAsync("select pg_advisory_lock_shared" + Key, cancellation, name).ConfigureAwait(false);
        try
        {
            return await use().ConfigureAwait(false);
        }
        finally
        {
            await LetGoAsync(connection, "select pg_advisory_unlock_shared" + Key, name).ConfigureAwait(false);
        }
    }

    public async ValueTask DisposeAsync()
    {
        await LetGoAsync(connection, "select pg_advisory_unlock" + Key, name).ConfigureAwait(false);
        await connection.DisposeAsync().ConfigureAwait(false);
    }

    /// <summary>A connection goes back to the pool with its locks; one that was cut has none any more.</summary>
    static async Task LetGoAsync(NpgsqlConnection connection, string noMore, string name)
    {
        if (connection.State != ConnectionState.Open)
            return;
        try
        {
            await connection.DoAsync(noMore, CancellationToken.None, name).ConfigureAwait(false);
        }
        catch (NpgsqlException)
        {
            // The connection was cut, and the lock with it.
        }
    }
}
