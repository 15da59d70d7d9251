using System.Data;
using System.Runtime.CompilerServices;
using EarHelp.Conversation.Keeping;
using EarHelp.Storage.Postgres;
using NodaTime;
using Npgsql;

namespace EarHelp.Storage.Moving;

/// <summary>Everything in a PostgreSQL database: read as it was at one moment, taken in one transaction.</summary>
sealed class PostgresStoreRows(Database database, TimeProvider clock) : IWholeStore
{
    /// <summary>All of a table is read, in its order: what suits the look-ups of a service does not suit this.</summary>
    const string Settings = "set local enable_seqscan = on; set local enable_hashjoin = on; set local enable_mergejoin = on; set local plan_cache_mode = auto";

    const string Conversations = """
        insert into conversations (id, last_number, last_at, finished) select * from unnest($1::text[], $2::integer[], $3::bigint[], $4::boolean[])
        on conflict (id) do update set last_number = excluded.last_number, last_at = excluded.last_at, finished = excluded.finished
        """;

    public async IAsyncEnumerable<Row> ReadAsync([EnumeratorCancellation] CancellationToken cancellation)
    {
        var connection = await Telling(database.Source.OpenConnectionAsync(cancellation).AsTask()).ConfigureAwait(false);
        await using var _ = connection.ConfigureAwait(false);
        var transaction = await Telling(connection.BeginTransactionAsync(IsolationLevel.RepeatableRead, cancellation).AsTask()).ConfigureAwait(false);
        await using var __ = transaction.ConfigureAwait(false);
        await Telling(connection.DoAsync(Settings, cancellation)).ConfigureAwait(false);
        await foreach (var row in AllAsync(connection, cancellation).ConfigureAwait(false))
            yield return row;
    }

    public async ValueTask<IAsyncDisposable> HoldAloneAsync(CancellationToken cancellation) =>
        await NamedLock.TryTakeAsync(database, NamedLock.InUse, cancellation).ConfigureAwait(false)
            ?? throw new StoreFailedException("A running service uses the database. Stop every service that does, then try again.");

    public Task FillAsync(IAsyncEnumerable<Row> rows, Tally given, CancellationToken cancellation) => Telling(FillAllAsync(rows, given, cancellation));

    async Task<bool> FillAllAsync(IAsyncEnumerable<Row> rows, Tally given, CancellationToken cancellation)
    {
        var connection = await database.Source.OpenConnectionAsync(cancellation).ConfigureAwait(false);
        await using var _ = connection.ConfigureAwait(false);
        var transaction = await connection.BeginTransactionAsync(cancellation).ConfigureAwait(false);
        await using var __ = transaction.ConfigureAwait(false);
        await connection.DoAsync(Settings, cancellation).ConfigureAwait(false);
        foreach (var table in Part.All.Select(p => p.Name).Append("conversations"))
        {
            if (await connection.FirstAsync($"select exists (select from {table})", cancellation).ConfigureAwait(false) is true)
                throw Filling.NotEmpty();
        }

        await foreach (var group in Filling.GroupAsync(rows, cancellation).ConfigureAwait(false))
            await PutAsync(connection, group, cancellation).ConfigureAwait(false);
        var kept = new Tally();
        await foreach (var row in AllAsync(connection, cancellation).ConfigureAwait(false))
            kept.Add(row);
        Filling.Compare(given, kept);
        await transaction.CommitAsync(cancellation).ConfigureAwait(false);
        return true;
    }

    static async IAsyncEnumerable<Row> AllAsync(NpgsqlConnection connection, [EnumeratorCancellation] CancellationToken cancellation)
    {
        foreach (var part in Part.All)
        {
            var command = new NpgsqlCommand(TableShape.Of(part).Select, connection) { CommandTimeout = 0 };
            await using var _ = command.ConfigureAwait(false);
            var reader = await Telling(command.ExecuteReaderAsync(cancellation)).ConfigureAwait(false);
            await using var __ = reader.ConfigureAwait(false);
            while (await Telling(reader.ReadAsync(cancellation)).ConfigureAwait(false))
                yield return new Row(part, [.. part.Columns.Select((column, i) => reader.IsDBNull(i) ? null : Value(reader, column, i))]);
        }
    }

    async Task PutAsync(NpgsqlConnection connection, IReadOnlyList<Row> group, CancellationToken cancellation)
    {
        var part = group[0].Part;
        var shape = TableShape.Of(part);
        var now = Instant.FromDateTimeOffset(clock.GetUtcNow());
        await connection.DoAsync(
            shape.Insert,
            cancellation,
            [
                .. part.Columns.Select((column, i) => Array(column.Kind, group.Select(r => r.Values[i]))),
                .. shape.Added.Select(a => a.Type switch
                {
                    "boolean" => Array(ColumnKind.Flag, group.Select(r => a.Value(r, now))),
                    "bigint" => Array(ColumnKind.LongNumber, group.Select(r => a.Value(r, now))),
                    _ => Array(ColumnKind.Text, group.Select(r => a.Value(r, now))),
                }),
            ]).ConfigureAwait(false);
        if (part != Part.Turns)
            return;
        var last = group.Select(RowRecords.Turn).GroupBy(t => t.Conversation, StringComparer.Ordinal).Select(c => c.Last()).ToArray();
        await connection.DoAsync(
            Conversations,
            cancellation,
            last.Select(t => t.Conversation).ToArray(),
            last.Select(t => t.Number).ToArray(),
            last.Select(t => t.AtUnixMilliseconds).ToArray(),
            last.Select(t => t.Finished).ToArray()).ConfigureAwait(false);
    }

    static object Value(NpgsqlDataReader reader, Column column, int at) => column.Kind switch
    {
        ColumnKind.Text => reader.GetString(at),
        ColumnKind.Number => reader.GetInt32(at),
        ColumnKind.LongNumber => reader.GetInt64(at),
        ColumnKind.Flag => reader.GetBoolean(at),
        _ => reader.GetFieldValue<byte[]>(at),
    };

    static object Array(ColumnKind kind, IEnumerable<object?> values) => kind switch
    {
        ColumnKind.Text => values.Select(v => (string?)v).ToArray(),
        ColumnKind.Number => values.Select(v => (int?)v).ToArray(),
        ColumnKind.LongNumber => values.Select(v => (long?)v).ToArray(),
        ColumnKind.Flag => values.Select(v => (bool?)v).ToArray(),
        _ => values.Select(v => (byte[]?)v).ToArray(),
    };

    static async Task<T> Telling<T>(Task<T> asked)
    {
        try
        {
            return await asked.ConfigureAwait(false);
        }
        catch (PostgresException taken) when (taken.SqlState == PostgresErrorCodes.ExclusionViolation)
        {
            throw new StoreFailedException("Two requests have one time at this moment. Nothing is changed at the target. Free one of them first (staff pages, requests).", taken);
        }
        catch (Exception failure) when (failure is NpgsqlException or TimeoutException or IOException or System.Net.Sockets.SocketException)
        {
            throw new StoreFailedException("The database does not take or give it: " + failure.Message + " Nothing is changed at the target.", failure);
        }
    }
}
