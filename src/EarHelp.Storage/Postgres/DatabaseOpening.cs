using System.Net.Sockets;
using EarHelp.Conversation.Keeping;
using Npgsql;

namespace EarHelp.Storage.Postgres;

/// <summary>Opens the database that a setting names, and says in plain words why it cannot be used.</summary>
static class DatabaseOpening
{
    const int LeastVersion = 14;
    const int MostConnections = 12;
    const int ConnectSeconds = 3;
    const int CommandSeconds = 5;

    /// <summary>
    /// Every statement is a look-up by key, and a plan that was made while a table was empty must not become a walk through all of it. A
    /// commit is answered only when it is on the server's disk.
    /// </summary>
    const string SessionSettings = "-c enable_seqscan=off -c enable_hashjoin=off -c enable_mergejoin=off -c plan_cache_mode=force_generic_plan -c synchronous_commit=on";

    /// <exception cref="StoreFailedException">It cannot be used.</exception>
    public static Database Open(string named, StoreOptions options)
    {
        var source = Source(named, options);
        try
        {
            Task.Run(() => PrepareAsync(source)).GetAwaiter().GetResult();
            return new Database(source);
        }
        catch (Exception failure) when (failure is NpgsqlException or SocketException or TimeoutException or InvalidOperationException or IOException)
        {
            source.Dispose();
            throw Refusal(failure);
        }
        catch
        {
            source.Dispose();
            throw;
        }
    }

    static NpgsqlDataSource Source(string named, StoreOptions options)
    {
        try
        {
            var settings = new NpgsqlConnectionStringBuilder(named);
            if (string.IsNullOrEmpty(settings.Host) || string.IsNullOrEmpty(settings.Database))
                throw Misnamed("names no host or no database.", null);
            settings.Options = settings.Options is { Length: > 0 } own ? $"{SessionSettings} {own}" : SessionSettings;
            settings.ApplicationName ??= "earhelp";
            settings.Enlist = false;
            settings.MaxPoolSize = MostConnections + options.Lanes;
            settings.Timeout = ConnectSeconds;
            settings.CommandTimeout = CommandSeconds;
            settings.KeepAlive = CommandSeconds;
            settings.MaxAutoPrepare = 40;
            settings.AutoPrepareMinUsages = 2;
            settings.IncludeErrorDetail = false;
            return new NpgsqlSlimDataSourceBuilder(settings.ConnectionString).EnableArrays().EnableTransportSecurity().Build();
        }
        catch (Exception wrong) when (wrong is ArgumentException or FormatException or KeyNotFoundException)
        {
            throw Misnamed("cannot be read: " + wrong.Message, wrong);
        }
    }

    static async Task PrepareAsync(NpgsqlDataSource source)
    {
        var connection = await source.OpenConnectionAsync().ConfigureAwait(false);
        await using (connection.ConfigureAwait(false))
        {
            if (connection.PostgreSqlVersion.Major < LeastVersion)
                throw new StoreFailedException($"The database server of --store is PostgreSQL {connection.PostgreSqlVersion}; {LeastVersion} or later is needed.");
            if (await connection.FirstAsync("show fsync", default).ConfigureAwait(false) is not "on")
                throw new StoreFailedException("The database server of --store has fsync switched off: a loss of power would lose what patients were told. Switch it on in its postgresql.conf.");
            if (await connection.FirstAsync("select pg_is_in_recovery()", default).ConfigureAwait(false) is true)
                throw new StoreFailedException("The database server of --store is a standby, which cannot be written to. Name the primary server.");
            if (await connection.FirstAsync("select current_schema()", default).ConfigureAwait(false) is null)
                throw new StoreFailedException("The schema that \"Search Path\" in --store names is not there. Make it with \"create schema\", or leave Search Path out.");
        }

        await Migrating.RunAsync(source, Migration.All, default).ConfigureAwait(false);
    }

    static StoreFailedException Misnamed(string fault, Exception? cause) => new StoreFailedException(
        $"--store {fault} Write it as Host=...;Database=...;Username=... in --store or in EARHELP_STORE; a password belongs in EARHELP_STORE or in a file named by Passfile=.",
        cause!);

    static StoreFailedException Refusal(Exception failure) => failure switch
    {
        PostgresException { SqlState: PostgresErrorCodes.InvalidCatalogName } => new StoreFailedException(
            "There is no database of the name in --store on the server. Make it with createdb, or correct Database=.", failure),
        PostgresException { SqlState: PostgresErrorCodes.InvalidPassword or PostgresErrorCodes.InvalidAuthorizationSpecification } => new StoreFailedException(
            "The server of --store does not let this user in. Correct Username= and the password, or the server's pg_hba.conf.", failure),
        PostgresException { SqlState: PostgresErrorCodes.InsufficientPrivilege } denied => new StoreFailedException(
            $"The user of --store may not make its tables ({denied.MessageText}). Let the user own the database.", failure),
        NpgsqlException { InnerException: SocketException unreachable } => new StoreFailedException(
            $"At the host and port of --store no server answers ({unreachable.Message}). Start it, or correct Host= and Port=.", failure),
        _ => new StoreFailedException("The database of --store cannot be used: " + failure.Message, failure),
    };
}
