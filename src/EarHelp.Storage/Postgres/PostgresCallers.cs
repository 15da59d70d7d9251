using System.Collections.Immutable;
using EarHelp.Clinic.Callers;
using EarHelp.Clinic.Keeping;
using NodaTime;
using Npgsql;

namespace EarHelp.Storage.Postgres;

/// <summary>Keeps for whom the desk holds a conversation.</summary>
sealed class PostgresCallers(Database database) : ICallers
{
    const string Columns = "select conversation, held_by, at, number, followed_up_by from callers";

    const string Upsert = """
        insert into callers (conversation, held_by, at, number, followed_up_by) values ($1, $2, $3, $4, $5)
        on conflict (conversation) do update
            set held_by = excluded.held_by, at = excluded.at, number = excluded.number, followed_up_by = excluded.followed_up_by
        """;

    public ValueTask<bool> PutAsync(Caller caller, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(caller);
        return database.UseAsync(
            c => c.IsKeptAsync(Upsert, cancellation, caller.Conversation, caller.By, caller.At.ToUnixTimeMilliseconds(), caller.Number, caller.FollowedUpBy), cancellation);
    }

    public ValueTask<Caller?> FindAsync(string conversation, CancellationToken cancellation) => database.UseAsync(
        async c => (await c.ListAsync(Columns + " where conversation = $1", Read, cancellation, conversation).ConfigureAwait(false)).FirstOrDefault(), cancellation);

    public ValueTask<ImmutableArray<Caller>> AllAsync(CancellationToken cancellation) => database.UseAsync<ImmutableArray<Caller>>(
        async c => [.. await c.ListAsync(Columns + " order by at desc, conversation", Read, cancellation).ConfigureAwait(false)], cancellation);

    static Caller Read(NpgsqlDataReader row) => new(
        row.GetString(0), row.GetString(1), Instant.FromUnixTimeMilliseconds(row.GetInt64(2)), row.GetString(3), row.IsDBNull(4) ? null : row.GetString(4));
}
