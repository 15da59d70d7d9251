using System.Globalization;
using System.Runtime.CompilerServices;
using System.Threading.Channels;
using EarHelp.Conversation.Keeping;
using EarHelp.Storage.Writing;
using Npgsql;

namespace EarHelp.Storage.Postgres;

/// <summary>
/// What one node tells the others, by NOTIFY in the transaction that changes it. Beneath it the ledger is looked at every half second, so
/// that a message that never came is made up for.
/// </summary>
sealed class Bulletin(Database database, KnownKeys keys, TimeProvider clock)
{
    public const string LedgerChanged = "ledger";

    public const string Swept = "swept";

    public const string Erased = "erased ";

    static readonly TimeSpan LookEvery = TimeSpan.FromSeconds(0.5);

    volatile bool _isHeard;

    /// <summary>False while messages may be missed: then nothing that is held in memory is relied on.</summary>
    public bool IsHeard => _isHeard;

    public static async Task<bool> SayAsync(NpgsqlConnection connection, string message, CancellationToken cancellation)
    {
        await connection.DoAsync("select pg_notify('earhelp_' || current_schema(), $1)", cancellation, message).ConfigureAwait(false);
        return true;
    }

    public async IAsyncEnumerable<ChangedElsewhere> ListenAsync([EnumeratorCancellation] CancellationToken cancellation)
    {
        var heard = Channel.CreateUnbounded<ChangedElsewhere>(new UnboundedChannelOptions { SingleReader = true });
        var listening = Task.Run(() => KeepListeningAsync(heard.Writer, cancellation), CancellationToken.None);
        await foreach (var change in heard.Reader.ReadAllAsync(CancellationToken.None).ConfigureAwait(false))
            yield return change;
        await listening.ConfigureAwait(false);
    }

    async Task KeepListeningAsync(ChannelWriter<ChangedElsewhere> heard, CancellationToken cancellation)
    {
        while (!cancellation.IsCancellationRequested)
        {
            try
            {
                await database.UseAsync(
                    c => HoldingDatabase.UseAsync(c, () => ListenAsync(c, heard, cancellation), cancellation), cancellation).ConfigureAwait(false);
            }
            catch (Exception failure) when (failure is StoreFailedException or OperationCanceledException)
            {
                // Until the database is reached again nothing is held in memory; then it is listened to again.
            }

            _isHeard = false;
            if (!cancellation.IsCancellationRequested)
                await Task.Delay(LookEvery, clock, CancellationToken.None).ConfigureAwait(false);
        }

        heard.Complete();
    }

    async Task<bool> ListenAsync(NpgsqlConnection connection, ChannelWriter<ChangedElsewhere> heard, CancellationToken cancellation)
    {
        connection.Notification += (_, told) => Hear(told.Payload, heard);
        var channel = await connection.FirstAsync("select quote_ident('earhelp_' || current_schema())", cancellation).ConfigureAwait(false);
        await connection.DoAsync(string.Create(CultureInfo.InvariantCulture, $"listen {channel}"), cancellation).ConfigureAwait(false);
        keys.ForgetAll();
        _isHeard = true;
        heard.TryWrite(new ChangedElsewhere.Anything());
        var known = await LastOfLedgerAsync(connection, cancellation).ConfigureAwait(false);
        while (true)
        {
            if (await connection.WaitAsync(LookEvery, cancellation).ConfigureAwait(false))
                continue;
            var last = await LastOfLedgerAsync(connection, cancellation).ConfigureAwait(false);
            if (last != known)
                heard.TryWrite(new ChangedElsewhere.Ledger());
            known = last;
        }
    }

    static async Task<int> LastOfLedgerAsync(NpgsqlConnection connection, CancellationToken cancellation) =>
        (int)(await connection.FirstAsync("select coalesce(max(number), 0) from ledger", cancellation).ConfigureAwait(false))!;

    void Hear(string message, ChannelWriter<ChangedElsewhere> heard)
    {
        if (message != LedgerChanged)
            keys.ForgetAll();
        heard.TryWrite(message switch
        {
            LedgerChanged => new ChangedElsewhere.Ledger(),
            _ when message.StartsWith(Erased, StringComparison.Ordinal) => new ChangedElsewhere.Erased(message[Erased.Length..]),
            _ => new ChangedElsewhere.Anything(),
        });
    }
}
