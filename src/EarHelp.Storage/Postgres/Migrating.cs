using System.Collections.Immutable;
using EarHelp.Conversation.Keeping;
using Npgsql;

namespace EarHelp.Storage.Postgres;

/// <summary>Brings the tables of a database up to date: one process at a time, each step whole or not at all, what is done is skipped.</summary>
static class Migrating
{
    const string Lock = "select pg_advisory_xact_lock(hashtext('earhelp migrations ' || current_schema()))";

    const string Book = "create table if not exists migrations (name text primary key, hash text not null, done_at timestamptz not null default now())";

    /// <exception cref="StoreFailedException">A step that was done is not the one that this program has.</exception>
    public static async Task RunAsync(NpgsqlDataSource source, ImmutableArray<Migration> migrations, CancellationToken cancellation)
    {
        foreach (var migration in migrations)
            await RunAsync(source, migration, cancellation).ConfigureAwait(false);
    }

    static async Task RunAsync(NpgsqlDataSource source, Migration migration, CancellationToken cancellation)
    {
        var connection = await source.OpenConnectionAsync(cancellation).ConfigureAwait(false);
        await using var _ = connection.ConfigureAwait(false);
        var transaction = await connection.BeginTransactionAsync(cancellation).ConfigureAwait(false);
        await using var __ = transaction.ConfigureAwait(false);
        await connection.DoAsync(Lock, cancellation).ConfigureAwait(false);
        await connection.DoAsync(Book, cancellation).ConfigureAwait(false);
        switch (await connection.FirstAsync("select hash from migrations where name = $1", cancellation, migration.Name).ConfigureAwait(false))
        {
            case null:
                await connection.DoAsync(migration.Sql, cancellation).ConfigureAwait(false);
                await connection.DoAsync("insert into migrations (name, hash) values ($1, $2)", cancellation, migration.Name, migration.Hash).ConfigureAwait(false);
                break;
            case string hash when hash != migration.Hash:
                throw new StoreFailedException(
                    $"The tables of the database were made by another version of this program: step \"{migration.Name}\" is not the one that was done. "
                    + "Run the version that made them, or name another database with --store.");
        }

        await transaction.CommitAsync(cancellation).ConfigureAwait(false);
    }
}
