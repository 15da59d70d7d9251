using System.Net.Sockets;
using EarHelp.Conversation.Keeping;
using Npgsql;

namespace EarHelp.Storage.Postgres;

/// <summary>The way to the database: a small pool, and what happens when the way is cut.</summary>
sealed class Database(NpgsqlDataSource source) : IAsyncDisposable
{
    /// <summary>How often one piece of work is begun. All work is such that doing it twice is as good as once.</summary>
    const int MostTries = 4;

    volatile bool _isReached = true;

    /// <summary>False from a failure to reach the database until it is reached again.</summary>
    public bool IsReached => _isReached;

    public NpgsqlDataSource Source => source;

    /// <summary>Does work on one connection; once more if the connection was cut or another transaction was in the way.</summary>
    /// <exception cref="StoreFailedException">The database does not answer, or refuses.</exception>
    public ValueTask<T> UseAsync<T>(Func<NpgsqlConnection, Task<T>> use, CancellationToken cancellation) => TryAsync(async () =>
    {
        var connection = await source.OpenConnectionAsync(cancellation).ConfigureAwait(false);
        await using var _ = connection.ConfigureAwait(false);
        return await use(connection).ConfigureAwait(false);
    });

    /// <summary>The same where work and connection are not done when it returns: who gives the work closes the connection.</summary>
    /// <exception cref="StoreFailedException">The database does not answer, or refuses.</exception>
    public ValueTask<T> OpenAsync<T>(Func<NpgsqlConnection, Task<T>> begin, CancellationToken cancellation) => TryAsync(async () =>
    {
        var connection = await source.OpenConnectionAsync(cancellation).ConfigureAwait(false);
        try
        {
            return await begin(connection).ConfigureAwait(false);
        }
        catch
        {
            await connection.DisposeAsync().ConfigureAwait(false);
            throw;
        }
    });

    async ValueTask<T> TryAsync<T>(Func<Task<T>> work)
    {
        for (var tries = 1; ; tries++)
        {
            try
            {
                var result = await work().ConfigureAwait(false);
                _isReached = true;
                return result;
            }
            catch (Exception failure) when (tries < MostTries && IsWorthAnotherTry(failure))
            {
                // Connections that the server has closed are found out one by one: the next try takes a new one.
                if (IsCut(failure))
                    source.Clear();
            }
            catch (Exception failure) when (failure is NpgsqlException or SocketException or TimeoutException or IOException or ObjectDisposedException or InvalidOperationException)
            {
                if (failure is not PostgresException || IsCut(failure))
                    _isReached = false;
                throw new StoreFailedException("The database does not take it: " + failure.Message, failure);
            }
        }
    }

    /// <summary>Does work in one transaction.</summary>
    public ValueTask<T> TransactAsync<T>(Func<NpgsqlConnection, Task<T>> use, CancellationToken cancellation) => UseAsync(
        async connection =>
        {
            var transaction = await connection.BeginTransactionAsync(cancellation).ConfigureAwait(false);
            await using var _ = transaction.ConfigureAwait(false);
            var result = await use(connection).ConfigureAwait(false);
            await transaction.CommitAsync(cancellation).ConfigureAwait(false);
            return result;
        },
        cancellation);

    public ValueTask DisposeAsync() => source.DisposeAsync();

    static bool IsWorthAnotherTry(Exception failure) => IsCut(failure)
        || failure is PostgresException { SqlState: PostgresErrorCodes.DeadlockDetected or PostgresErrorCodes.SerializationFailure };

    /// <summary>True if the server closed the connection; a server that does not answer at all is not asked again.</summary>
    static bool IsCut(Exception failure) => failure switch
    {
        PostgresException answer => answer.SqlState is PostgresErrorCodes.AdminShutdown or PostgresErrorCodes.CrashShutdown,
        NpgsqlException { InnerException: TimeoutException } => false,
        NpgsqlException { InnerException: SocketException { SocketErrorCode: SocketError.ConnectionRefused } } => false,
        NpgsqlException { InnerException: IOException or SocketException or EndOfStreamException } => true,
        _ => false,
    };
}
