using System.Data;
using EarHelp.Conversation.Keeping;
using Npgsql;

namespace EarHelp.Storage.Postgres;

/// <summary>Says on the server that services use the database, so that it is not moved or filled under them. It ends with the connection at the latest.</summary>
sealed class HoldingDatabase(NpgsqlConnection connection) : IAsyncDisposable
{
    const string Use = "select pg_advisory_lock_shared(hashtext('earhelp in use ' || current_schema()))";

    const string UseNoMore = "select pg_advisory_unlock_shared(hashtext('earhelp in use ' || current_schema()))";

    const string AloneNoMore = "select pg_advisory_unlock(hashtext('earhelp in use ' || current_schema()))";

    const string Alone = "select pg_try_advisory_lock(hashtext('earhelp in use ' || current_schema()))";

    /// <summary>Says so for as long as something is done on a connection.</summary>
    public static async Task<T> UseAsync<T>(NpgsqlConnection connection, Func<Task<T>> use, CancellationToken cancellation)
    {
        await connection.DoAsync(Use, cancellation).ConfigureAwait(false);
        try
        {
            return await use().ConfigureAwait(false);
        }
        finally
        {
            await LetGoAsync(connection, UseNoMore).ConfigureAwait(false);
        }
    }

    /// <exception cref="StoreFailedException">A service uses it.</exception>
    public static async ValueTask<HoldingDatabase> TakeAsync(Database database, CancellationToken cancellation)
    {
        var connection = await database.Source.OpenConnectionAsync(cancellation).ConfigureAwait(false);
        if (await connection.FirstAsync(Alone, cancellation).ConfigureAwait(false) is true)
            return new HoldingDatabase(connection);
        await connection.DisposeAsync().ConfigureAwait(false);
        throw new StoreFailedException("A running service uses the database. Stop every service that does, then try again.");
    }

    public async ValueTask DisposeAsync()
    {
        await LetGoAsync(connection, AloneNoMore).ConfigureAwait(false);
        await connection.DisposeAsync().ConfigureAwait(false);
    }

    /// <summary>A connection goes back to the pool with its locks; one that was cut has none any more.</summary>
    static async Task LetGoAsync(NpgsqlConnection connection, string noMore)
    {
        if (connection.State == ConnectionState.Open)
            await connection.DoAsync(noMore, CancellationToken.None).ConfigureAwait(false);
    }
}
