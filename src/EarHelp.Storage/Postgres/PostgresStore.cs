using System.Collections.Immutable;
using EarHelp.Clinic.Keeping;
using EarHelp.Conversation.Keeping;
using EarHelp.Storage.Moving;
using EarHelp.Storage.Records;
using EarHelp.Storage.Writing;

namespace EarHelp.Storage.Postgres;

/// <summary>
/// Keeps everything in one PostgreSQL database, for any number of processes on any number of machines. What it acknowledges is on the
/// disk of the database server. Once the database is reached again after a failure, it goes on by itself.
/// </summary>
public sealed class PostgresStore : IStore
{
    /// <summary>Keys kept at hand; one takes about 300 bytes.</summary>
    const int KeysAtHand = 50_000;

    readonly Database _database;
    readonly TurnQueue _turns;
    readonly Bulletin _bulletin;
    readonly KnownKeys _keys = new(KeysAtHand);
    readonly PostgresRequestStore _requests;
    readonly int _largestBodyBytes;
    readonly string? _erasureList;

    PostgresStore(Database database, StoreOptions options)
    {
        _database = database;
        _largestBodyBytes = options.LargestBodyBytes;
        _erasureList = options.ErasureList;
        _turns = new TurnQueue(database, options);
        _bulletin = new Bulletin(database, _keys, options.Clock);
        Requests = _requests = new PostgresRequestStore(database);
        Staff = new PostgresStaffStore(database);
        Audit = new PostgresAuditTrail(database);
        Visits = new PostgresVisitStore(database, _keys);
        Closings = new PostgresClosings(database);
        Incidents = new PostgresIncidents(database);
        Callers = new PostgresCallers(database);
        FollowUps = new PostgresFollowUps(database);
        SealingKeys = new PostgresSealingKeys(database);
        Rows = new PostgresStoreRows(database, options.Clock);
    }

    public IRequestStore Requests { get; }

    public IStaffStore Staff { get; }

    public IAuditTrail Audit { get; }

    public IVisitStore Visits { get; }

    public IClosings Closings { get; }

    public IIncidents Incidents { get; }

    public ICallers Callers { get; }

    public IFollowUps FollowUps { get; }

    public ISealingKeys SealingKeys { get; }

    /// <summary>All of it, for moving and for backups.</summary>
    internal PostgresStoreRows Rows { get; }

    public int Waiting => _turns.Waiting;

    /// <summary>False from a failure to reach the database until it is reached again.</summary>
    public bool IsHealthy => _database.IsReached;

    /// <param name="named">How to reach the database: <c>Host=...;Database=...;Username=...</c>. Its tables are made, or brought up to date.</param>
    /// <exception cref="StoreFailedException">It cannot be reached or used; says which part of it is at fault.</exception>
    public static PostgresStore Open(string named, StoreOptions options)
    {
        ArgumentNullException.ThrowIfNull(options);
        return new PostgresStore(DatabaseOpening.Open(named, options), options);
    }

    public async ValueTask<Appended> AppendAsync(TurnRecord record, ImmutableArray<ConversationKey> newKeys, CancellationToken cancellation)
    {
        var request = AppendRequest.Of(record, newKeys, _largestBodyBytes);
        _turns.Post(request);
        return await request.Done.ConfigureAwait(false);
    }

    public ValueTask<ImmutableArray<TurnRecord>> LoadAsync(string conversation, CancellationToken cancellation) =>
        _database.UseAsync(c => TurnRows.LoadAsync(c, conversation, cancellation), cancellation);

    public ValueTask<bool> IsLastAsync(string conversation, int number, CancellationToken cancellation) => _database.UseAsync(
        async c => await c.FirstAsync("select last_number from conversations where id = $1", cancellation, conversation).ConfigureAwait(false) is int last && last == number,
        cancellation);

    public async ValueTask<string?> FindByKeyAsync(string keyHash, long nowUnixMilliseconds, CancellationToken cancellation)
    {
        var generation = _keys.Generation;
        if (!_keys.TryFind(keyHash, out var key) || !_bulletin.IsHeard)
        {
            key = await _database.UseAsync(
                async c => (await c.ListAsync("select conversation, expires from keys where hash = $1", r => new KnownKey(r.GetString(0), r.GetInt64(1)), cancellation, keyHash)
                    .ConfigureAwait(false)).FirstOrDefault(),
                cancellation).ConfigureAwait(false);
            if (key is not null)
                _keys.Add(keyHash, key, generation);
        }

        return key is null || key.Expires <= nowUnixMilliseconds ? null : key.Conversation;
    }

    public async ValueTask<bool> SpendKeyAsync(string keyHash, CancellationToken cancellation)
    {
        var isSpent = await _database.UseAsync(c => c.DoAsync("delete from keys where hash = $1", cancellation, keyHash), cancellation).ConfigureAwait(false) == 1;
        _keys.Forget(keyHash);
        return isSpent;
    }

    public async ValueTask<bool> EraseAsync(string conversation, CancellationToken cancellation)
    {
        var isErased = await _database.TransactAsync(c => Erasing.EraseAsync(c, conversation, _erasureList, cancellation), cancellation).ConfigureAwait(false);
        _keys.ForgetAll();
        return isErased;
    }

    public async ValueTask<int> SweepUnfinishedAsync(long lastTurnBeforeUnixMilliseconds, CancellationToken cancellation)
    {
        var swept = await _database.TransactAsync(c => Erasing.SweepAsync(c, lastTurnBeforeUnixMilliseconds, cancellation), cancellation).ConfigureAwait(false);
        _keys.ForgetAll();
        return swept;
    }

    public async ValueTask KeepAsync(string editionId, ReadOnlyMemory<byte> sources, CancellationToken cancellation) => await _database.UseAsync(
        c => c.DoAsync("insert into editions (id, sources) values ($1, $2) on conflict do nothing", cancellation, editionId, sources.ToArray()), cancellation).ConfigureAwait(false);

    public ValueTask<ReadOnlyMemory<byte>?> FindAsync(string editionId, CancellationToken cancellation) => _database.UseAsync<ReadOnlyMemory<byte>?>(
        async c => await c.FirstAsync("select sources from editions where id = $1", cancellation, editionId).ConfigureAwait(false) is byte[] sources ? (ReadOnlyMemory<byte>?)sources : null, cancellation);

    async ValueTask<bool> IEditionLedger.AppendAsync(ChainedRecord record, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(record);
        var last = (await ReadLedgerAsync(cancellation).ConfigureAwait(false)).LastOrDefault();
        return record.Follows(last) && await _database.TransactAsync(
            async c => await ChainRows.AddAsync(c, ChainRows.Ledger, record, cancellation).ConfigureAwait(false)
                && await Bulletin.SayAsync(c, Bulletin.LedgerChanged, cancellation).ConfigureAwait(false),
            cancellation).ConfigureAwait(false);
    }

    ValueTask<ImmutableArray<ChainedRecord>> IEditionLedger.ReadAsync(CancellationToken cancellation) => ReadLedgerAsync(cancellation);

    public ValueTask<ImmutableArray<string>> ConversationsAsync(CancellationToken cancellation) => _database.UseAsync<ImmutableArray<string>>(
        async c => [.. (await c.ListAsync("select id from conversations", r => r.GetString(0), cancellation).ConfigureAwait(false)).Order(StringComparer.Ordinal)], cancellation);

    public IAsyncEnumerable<ChangedElsewhere> ListenAsync(CancellationToken cancellation) => _bulletin.ListenAsync(cancellation);

    public ValueTask<long> SizeAsync(CancellationToken cancellation) => _database.UseAsync(
        async c => (long)(await c.FirstAsync("select pg_database_size(current_database())", cancellation).ConfigureAwait(false))!, cancellation);

    public async ValueTask<IAsyncDisposable?> ClaimAsync(string work, CancellationToken cancellation) =>
        await NamedLock.TryTakeAsync(_database, work, cancellation).ConfigureAwait(false);

    public async ValueTask DisposeAsync()
    {
        await _turns.DisposeAsync().ConfigureAwait(false);
        _requests.Dispose();
        await _database.DisposeAsync().ConfigureAwait(false);
    }

    async ValueTask<ImmutableArray<ChainedRecord>> ReadLedgerAsync(CancellationToken cancellation)
    {
        var records = await _database.UseAsync(c => ChainRows.AllAsync(c, ChainRows.Ledger, cancellation), cancellation).ConfigureAwait(false);
        return ChainDocuments.FirstDamaged(records) is { } damaged
            ? throw new LedgerDamagedException($"The ledger of editions is damaged at record {damaged}: it does not follow from the one before.")
            : records;
    }
}
