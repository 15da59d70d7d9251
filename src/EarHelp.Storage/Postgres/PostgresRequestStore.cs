using System.Collections.Immutable;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Records;
using EarHelp.Clinic.Requests;
using EarHelp.Clinic.Times;
using NodaTime;
using Npgsql;

namespace EarHelp.Storage.Postgres;

/// <summary>Keeps requests for visits. That two people never have one time is a constraint of the table.</summary>
sealed class PostgresRequestStore(Database database) : IRequestStore, IDisposable
{
    /// <summary>Those who take a time at the same moment come one after the other: else they would wait for each other in circles, until the database ends one.</summary>
    const string OneAfterTheOther = "select pg_advisory_xact_lock(hashtext('earhelp times ' || current_schema()))";

    /// <summary>A time that was held for somebody else until now is anybody's.</summary>
    const string LetGo = """
        update requests set times = booked
        where conversation <> $1 and held_until <= $2 and times <> booked and times && $3::text::int8multirange
        """;

    const string Insert = """
        insert into requests (conversation, version, waiting, changed_at, booked, held_until, times, body, contact)
        values ($1, $2, $3, $4, $5::text::int8multirange, $6, $7::text::int8multirange, $8, $9)
        on conflict (conversation) do nothing
        """;

    const string Update = """
        update requests set version = $2, waiting = $3, changed_at = $4, booked = $5::text::int8multirange, held_until = $6,
            times = $7::text::int8multirange, body = $8, contact = $9
        where conversation = $1 and version = $2 - 1
        """;

    /// <summary>Those of this node wait here and not in the database, where a long wait would end in an error.</summary>
    readonly SemaphoreSlim _takesTime = new(1, 1);

    public async ValueTask<RequestPut> PutAsync(VisitRequest request, ContactDetails? contact, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(request);
        if (!request.TakenAt(request.ChangedAt).Any())
            return await database.UseAsync(connection => PutAsync(connection, request, contact, cancellation), cancellation).ConfigureAwait(false);
        await _takesTime.WaitAsync(cancellation).ConfigureAwait(false);
        try
        {
            return await database.UseAsync(connection => PutAsync(connection, request, contact, cancellation), cancellation).ConfigureAwait(false);
        }
        finally
        {
            _takesTime.Release();
        }
    }

    public void Dispose() => _takesTime.Dispose();

    public ValueTask<KeptRequest?> FindAsync(string conversation, CancellationToken cancellation) => database.UseAsync(
        async c => (await c.ListAsync("select body, contact from requests where conversation = $1", Read, cancellation, conversation).ConfigureAwait(false)).FirstOrDefault(),
        cancellation);

    public ValueTask<ImmutableArray<VisitTime>> TakenAsync(Instant now, string except, CancellationToken cancellation) => database.UseAsync(
        c => TakenAsync(c, now, except, cancellation), cancellation);

    public ValueTask<ImmutableArray<KeptRequest>> WaitingAsync(CancellationToken cancellation) => database.UseAsync<ImmutableArray<KeptRequest>>(
        async c => [.. await c.ListAsync("select body, contact from requests where waiting", Read, cancellation).ConfigureAwait(false)], cancellation);

    public ValueTask<int> SweepRequestsAsync(long changedBeforeUnixMilliseconds, CancellationToken cancellation) => database.UseAsync(
        c => c.DoAsync("delete from requests where changed_at < $1", cancellation, changedBeforeUnixMilliseconds), cancellation);

    static async Task<ImmutableArray<VisitTime>> TakenAsync(NpgsqlConnection connection, Instant now, string except, CancellationToken cancellation)
    {
        var requests = await connection.ListAsync("select body, null::bytea from requests where times <> '{}' and conversation <> $1", Read, cancellation, except).ConfigureAwait(false);
        return [.. requests.SelectMany(k => k.Request.TakenAt(now))];
    }

    static async Task<RequestPut> PutAsync(NpgsqlConnection connection, VisitRequest request, ContactDetails? contact, CancellationToken cancellation)
    {
        var transaction = await connection.BeginTransactionAsync(cancellation).ConfigureAwait(false);
        await using var _ = transaction.ConfigureAwait(false);
        var wanted = request.TakenAt(request.ChangedAt).ToList();
        var times = TimeRanges.Of(wanted);
        try
        {
            if (wanted.Count > 0)
            {
                await connection.DoAsync(OneAfterTheOther, cancellation).ConfigureAwait(false);
                if ((await TakenAsync(connection, request.ChangedAt, request.Conversation, cancellation).ConfigureAwait(false)).Any(t => wanted.Any(t.Overlaps)))
                    return RequestPut.TimeTaken;
            }

            await connection.DoAsync(LetGo, cancellation, request.Conversation, request.ChangedAt.ToUnixTimeTicks(), times).ConfigureAwait(false);
            var rows = await connection.DoAsync(
                request.Version == 1 ? Insert : Update,
                cancellation,
                request.Conversation,
                request.Version,
                request.State == RequestState.Waiting,
                request.ChangedAt.ToUnixTimeMilliseconds(),
                TimeRanges.Booked(request),
                TimeRanges.HeldUntil(request),
                times,
                RequestJson.Write(request),
                contact is null ? null : RequestJson.Write(contact)).ConfigureAwait(false);
            await Bulletin.SayAsync(connection, Bulletin.RequestsChanged, cancellation).ConfigureAwait(false);
            await transaction.CommitAsync(cancellation).ConfigureAwait(false);
            return rows == 1 ? RequestPut.Kept : RequestPut.Stale;
        }
        catch (PostgresException taken) when (taken.SqlState == PostgresErrorCodes.ExclusionViolation)
        {
            return RequestPut.TimeTaken;
        }
        catch (PostgresException gone) when (gone.SqlState == PostgresErrorCodes.ForeignKeyViolation)
        {
            return RequestPut.Gone;
        }
    }

    static KeptRequest Read(NpgsqlDataReader row) => new(
        RequestJson.ReadRequest(row.GetFieldValue<byte[]>(0)), row.IsDBNull(1) ? null : RequestJson.ReadContact(row.GetFieldValue<byte[]>(1)));
}
