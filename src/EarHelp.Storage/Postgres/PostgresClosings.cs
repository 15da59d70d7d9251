using System.Collections.Immutable;
using EarHelp.Clinic.Keeping;
using NodaTime;
using Npgsql;

namespace EarHelp.Storage.Postgres;

/// <summary>Keeps when the clinic closed at once.</summary>
sealed class PostgresClosings(Database database) : IClosings
{
    const string Upsert = """
        insert into closings (set_at, last_day, lifted_at) values ($1, $2, $3)
        on conflict (set_at) do update set last_day = excluded.last_day, lifted_at = excluded.lifted_at
        """;

    public async ValueTask PutAsync(KeptClosing closing, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(closing);
        await database.TransactAsync(
            async c =>
            {
                await c.DoAsync(Upsert, cancellation, closing.SetAt.ToUnixTimeMilliseconds(), closing.LastDay.ToDateOnly(), closing.LiftedAt?.ToUnixTimeMilliseconds()).ConfigureAwait(false);
                return await Bulletin.SayAsync(c, Bulletin.ClosingsChanged, cancellation).ConfigureAwait(false);
            },
            cancellation).ConfigureAwait(false);
    }

    public ValueTask<ImmutableArray<KeptClosing>> AllAsync(CancellationToken cancellation) => database.UseAsync<ImmutableArray<KeptClosing>>(
        async c => [.. await c.ListAsync("select set_at, last_day, lifted_at from closings order by set_at", Read, cancellation).ConfigureAwait(false)], cancellation);

    static KeptClosing Read(NpgsqlDataReader row) => new(
        Instant.FromUnixTimeMilliseconds(row.GetInt64(0)),
        LocalDate.FromDateOnly(row.GetFieldValue<DateOnly>(1)),
        row.IsDBNull(2) ? null : Instant.FromUnixTimeMilliseconds(row.GetInt64(2)));
}
