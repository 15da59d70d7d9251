using System.Collections.Immutable;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Records;
using EarHelp.Clinic.Visits;
using EarHelp.Storage.Writing;
using Npgsql;

namespace EarHelp.Storage.Postgres;

/// <summary>Keeps what was recorded of visits.</summary>
sealed class PostgresVisitStore(Database database, KnownKeys keys) : IVisitStore
{
    const string Insert = "insert into visits (conversation, before, at, body) values ($1, $2, $3, $4) on conflict (conversation) do nothing";

    const string Locked = "select body from visits where conversation = $1 for update";

    const string Update = "update visits set at = $2, body = $3 where conversation = $1";

    public ValueTask<bool> PutAsync(Visit visit, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(visit);
        return database.UseAsync(
            c => c.IsKeptAsync(Insert, cancellation, visit.Conversation, visit.Before, visit.At.ToUnixTimeMilliseconds(), VisitJson.Write(visit)), cancellation);
    }

    public async ValueTask<bool> CorrectAsync(Visit visit, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(visit);
        var body = VisitJson.Write(visit);
        return await database.TransactAsync(
            async c => (await c.ListAsync(Locked, r => r.GetFieldValue<byte[]>(0), cancellation, visit.Conversation).ConfigureAwait(false)).FirstOrDefault() is { } kept
                && (kept.AsSpan().SequenceEqual(body)
                    || (VisitJson.Read(kept).Version == visit.Version - 1
                        && await c.DoAsync(Update, cancellation, visit.Conversation, visit.At.ToUnixTimeMilliseconds(), body).ConfigureAwait(false) == 1)),
            cancellation).ConfigureAwait(false);
    }

    public ValueTask<Visit?> FindAsync(string conversation, CancellationToken cancellation) => database.UseAsync(
        async c => (await c.ListAsync("select body from visits where conversation = $1", Read, cancellation, conversation).ConfigureAwait(false)).FirstOrDefault(), cancellation);

    public ValueTask<ImmutableArray<Visit>> AllAsync(CancellationToken cancellation) => database.UseAsync<ImmutableArray<Visit>>(
        async c => [.. await c.ListAsync("select body from visits order by at desc, conversation", Read, cancellation).ConfigureAwait(false)], cancellation);

    public async ValueTask<int> SweepVisitsAsync(long beforeUnixMilliseconds, CancellationToken cancellation)
    {
        var swept = await database.TransactAsync(c => Erasing.SweepVisitsAsync(c, beforeUnixMilliseconds, cancellation), cancellation).ConfigureAwait(false);
        keys.ForgetAll();
        return swept;
    }

    static Visit Read(NpgsqlDataReader row) => VisitJson.Read(row.GetFieldValue<byte[]>(0));
}
