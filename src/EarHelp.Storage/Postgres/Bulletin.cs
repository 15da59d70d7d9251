using System.Globalization;
using System.Runtime.CompilerServices;
using System.Threading.Channels;
using EarHelp.Conversation.Keeping;
using EarHelp.Storage.Writing;
using Npgsql;

namespace EarHelp.Storage.Postgres;

/// <summary>
/// What one node tells the others, by NOTIFY in the transaction that changes it. Beneath it the ledger and the closings are looked at every
/// half second, so that a message that never came is made up for.
/// </summary>
sealed class Bulletin(Database database, KnownKeys keys, TimeProvider clock)
{
    public const string LedgerChanged = "ledger";

    public const string ClosingsChanged = "closings";

    public const string RequestsChanged = "requests";

    public const string Swept = "swept";

    public const string Erased = "erased ";

    /// <summary>What must not be missed, in two numbers a kind that change with it.</summary>
    const string Look = """
        select (select coalesce(max(number), 0) from ledger)::text, (select count(*) || ' ' || count(lifted_at) || ' ' || coalesce(max(set_at), 0) from closings)
        """;

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
                    c => NamedLock.ShareAsync(c, NamedLock.InUse, () => ListenAsync(c, heard, cancellation), cancellation), cancellation).ConfigureAwait(false);
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
        var known = await LookAsync(connection, cancellation).ConfigureAwait(false);
        var looked = clock.GetTimestamp();
        while (true)
        {
            // Not only when nothing was heard for a while: where much is heard, that moment never comes.
            var isHeard = await connection.WaitAsync(LookEvery, cancellation).ConfigureAwait(false);
            if (isHeard && clock.GetElapsedTime(looked) < LookEvery)
                continue;
            var now = await LookAsync(connection, cancellation).ConfigureAwait(false);
            if (now.Ledger != known.Ledger)
                heard.TryWrite(new ChangedElsewhere.Ledger());
            if (now.Closings != known.Closings)
                heard.TryWrite(new ChangedElsewhere.Closings());
            (known, looked) = (now, clock.GetTimestamp());
        }
    }

    static async Task<(string Ledger, string Closings)> LookAsync(NpgsqlConnection connection, CancellationToken cancellation) =>
        (await connection.ListAsync(Look, r => (r.GetString(0), r.GetString(1)), cancellation).ConfigureAwait(false))[0];

    void Hear(string message, ChannelWriter<ChangedElsewhere> heard)
    {
        if (message is not (LedgerChanged or ClosingsChanged or RequestsChanged))
            keys.ForgetAll();
        heard.TryWrite(message switch
        {
            LedgerChanged => new ChangedElsewhere.Ledger(),
            ClosingsChanged => new ChangedElsewhere.Closings(),
            RequestsChanged => new ChangedElsewhere.Requests(),
            _ when message.StartsWith(Erased, StringComparison.Ordinal) => new ChangedElsewhere.Erased(message[Erased.Length..]),
            _ => new ChangedElsewhere.Anything(),
        });
    }
}
