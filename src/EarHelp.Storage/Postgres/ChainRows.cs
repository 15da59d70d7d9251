using System.Collections.Immutable;
using EarHelp.Conversation.Keeping;
using Npgsql;

namespace EarHelp.Storage.Postgres;

/// <summary>Chains of records that are only ever added to; the key makes "append n if n-1 is the last" unique.</summary>
static class ChainRows
{
    public const string Ledger = "ledger";

    public const string Audit = "audit";

    const string Columns = "number, body, previous_hash, hash";

    public static async Task<ImmutableArray<ChainedRecord>> AllAsync(NpgsqlConnection connection, string chain, CancellationToken cancellation) =>
        [.. await connection.ListAsync($"select {Columns} from {chain} order by number", Read, cancellation).ConfigureAwait(false)];

    public static async Task<ChainedRecord?> LastAsync(NpgsqlConnection connection, string chain, CancellationToken cancellation) =>
        (await connection.ListAsync($"select {Columns} from {chain} order by number desc limit 1", Read, cancellation).ConfigureAwait(false)).FirstOrDefault();

    /// <returns>False if another record has its number.</returns>
    public static async Task<bool> AddAsync(NpgsqlConnection connection, string chain, ChainedRecord record, CancellationToken cancellation) =>
        await connection.DoAsync(
            $"insert into {chain} ({Columns}) values ($1, $2, $3, $4) on conflict do nothing",
            cancellation,
            record.Number, record.Body.ToArray(), record.PreviousHash, record.Hash).ConfigureAwait(false) == 1;

    static ChainedRecord Read(NpgsqlDataReader row) => new(row.GetInt32(0), row.GetFieldValue<byte[]>(1), row.GetString(2), row.GetString(3));
}
