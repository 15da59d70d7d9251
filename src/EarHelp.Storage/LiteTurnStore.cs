using System.Collections.Immutable;
using EarHelp.Clinic.Keeping;
using EarHelp.Conversation.Keeping;
using EarHelp.Storage.Backups;
using EarHelp.Storage.Disk;
using EarHelp.Storage.Moving;
using EarHelp.Storage.Records;
using EarHelp.Storage.Writing;
using LiteDB;

namespace EarHelp.Storage;

/// <summary>Keeps turns, editions and their ledger in one LiteDB file of one folder, for one process. What it acknowledges is on the disk.</summary>
public sealed class LiteTurnStore : IStore
{
    /// <summary>Keys kept at hand; one takes about 300 bytes.</summary>
    const int KeysAtHand = 20_000;

    /// <summary>Conversations that one commit deletes, and that are swept before the next turn is taken.</summary>
    const int DeletedTogether = 20, SweptAtOnce = 40;

    readonly FolderLock _lock;
    readonly StoreFile _file;
    readonly Writer _writer;
    readonly KnownKeys _keys = new(KeysAtHand);
    readonly Renewal _renewal;
    readonly ITimer _checkpoints;
    readonly int _largestBodyBytes;
    readonly string? _erasureList;

    LiteTurnStore(FolderLock held, StoreFile file, StoreOptions options)
    {
        (_lock, _file) = (held, file);
        _renewal = new Renewal(file);
        _writer = new Writer(file, _keys, _renewal, options);
        _largestBodyBytes = options.LargestBodyBytes;
        _erasureList = options.ErasureList;
        Requests = new LiteRequestStore(this, file);
        Visits = new LiteVisitStore(this, file);
        Staff = new LiteStaffStore(this, file);
        Audit = new LiteAuditTrail(this, file);
        Closings = new LiteClosings(this, file);
        Incidents = new LiteIncidents(this, file);
        Callers = new LiteCallers(this, file);
        FollowUps = new LiteFollowUps(this, file);
        SealingKeys = new LiteSealingKeys(this, file);
        Rows = new LiteStoreRows(this, file);
        _checkpoints = options.Clock.CreateTimer(_ => PostCheckpoint(), null, options.CheckpointEvery, options.CheckpointEvery);
    }

    /// <summary>Requests for visits, in the same file.</summary>
    public IRequestStore Requests { get; }

    /// <summary>What was recorded of visits, in the same file.</summary>
    public IVisitStore Visits { get; }

    /// <summary>Accounts of staff, in the same file.</summary>
    public IStaffStore Staff { get; }

    /// <summary>Who read and changed what, in the same file.</summary>
    public IAuditTrail Audit { get; }

    /// <summary>When the clinic closed at once, in the same file.</summary>
    public IClosings Closings { get; }

    /// <summary>What went wrong, in the same file.</summary>
    public IIncidents Incidents { get; }

    /// <summary>For whom the desk holds conversations, in the same file.</summary>
    public ICallers Callers { get; }

    /// <summary>How patients are asked after a visit, in the same file.</summary>
    public IFollowUps FollowUps { get; }

    /// <summary>Keys that seal what staff's browsers hold, in the same file.</summary>
    public ISealingKeys SealingKeys { get; }

    /// <summary>All of it, for moving and for backups.</summary>
    internal LiteStoreRows Rows { get; }

    public int Waiting => _writer.Waiting;

    /// <summary>False once the disk or the database has failed: start the service again.</summary>
    public bool IsHealthy => _writer.Failure is null;

    /// <param name="dataFolder">Made if it is not there. On a local disk.</param>
    /// <exception cref="StoreFailedException">Another process uses the folder, or its files cannot be read.</exception>
    public static LiteTurnStore Open(string dataFolder, StoreOptions options)
    {
        ArgumentNullException.ThrowIfNull(options);
        Directory.CreateDirectory(dataFolder);
        var folder = new StoreFolder(Path.GetFullPath(dataFolder));
        var held = FolderLock.Take(folder);
        try
        {
            return new LiteTurnStore(held, new StoreFile(folder, options), options);
        }
        catch (Exception failure) when (failure is IOException or LiteException or UnauthorizedAccessException)
        {
            held.Dispose();
            throw new StoreFailedException($"The store {folder.Main} cannot be opened: {failure.Message} Restore the last verified backup.", failure);
        }
    }

    public async ValueTask<Appended> AppendAsync(TurnRecord record, ImmutableArray<ConversationKey> newKeys, CancellationToken cancellation)
    {
        var request = AppendRequest.Of(record, newKeys, _largestBodyBytes);
        _writer.Post(request);
        return await request.Done.ConfigureAwait(false);
    }

    public ValueTask<ImmutableArray<TurnRecord>> LoadAsync(string conversation, CancellationToken cancellation) =>
        ValueTask.FromResult(Read(d => TurnDocuments.Load(d, conversation)));

    public ValueTask<string?> FindByKeyAsync(string keyHash, long nowUnixMilliseconds, CancellationToken cancellation)
    {
        if (!_keys.TryFind(keyHash, out var key))
        {
            var generation = _keys.Generation;
            key = Read(d => KeyDocuments.Find(d, keyHash));
            _keys.Add(keyHash, key, generation);
        }

        return ValueTask.FromResult(key is null || key.Expires <= nowUnixMilliseconds ? null : key.Conversation);
    }

    public async ValueTask<bool> SpendKeyAsync(string keyHash, CancellationToken cancellation) =>
        await DoAsync(() =>
        {
            var isSpent = _file.Database.GetCollection(KeyDocuments.Collection).Delete(keyHash);
            _keys.Forget(keyHash);
            _renewal.Note(KeyDocuments.Collection, keyHash);
            return isSpent;
        }).ConfigureAwait(false);

    public async ValueTask<bool> EraseAsync(string conversation, CancellationToken cancellation) =>
        await EraseAsync(() => [conversation], _erasureList).ConfigureAwait(false) > 0;

    /// <summary>Looks for what may be over beside the writer, and deletes what is over some at a time: turns are taken in between.</summary>
    public async ValueTask<int> SweepUnfinishedAsync(long lastTurnBeforeUnixMilliseconds, CancellationToken cancellation)
    {
        var due = _file.All(CardDocuments.Collection).Where(c => CardDocuments.IsUnfinishedBefore(c, lastTurnBeforeUnixMilliseconds)).Select(c => c["_id"].AsString).ToList();
        if (due.Count == 0)
            return 0;
        var keys = KeyDocuments.Of(_file.All(KeyDocuments.Collection), due);
        var swept = 0;
        foreach (var some in due.Chunk(SweptAtOnce))
            swept += await DoAsync(() => Sweep(some, keys, lastTurnBeforeUnixMilliseconds)).ConfigureAwait(false);
        if (swept > 0)
            await RenewAsync().ConfigureAwait(false);
        return swept;
    }

    public async ValueTask KeepAsync(string editionId, ReadOnlyMemory<byte> sources, CancellationToken cancellation) =>
        await DoAsync(() => _file.Database.GetCollection(EditionDocuments.Collection).Upsert(EditionDocuments.Write(editionId, sources))).ConfigureAwait(false);

    public ValueTask<ReadOnlyMemory<byte>?> FindAsync(string editionId, CancellationToken cancellation)
    {
        var found = Read(d => d.GetCollection(EditionDocuments.Collection).FindById(editionId));
        return ValueTask.FromResult(found is null ? (ReadOnlyMemory<byte>?)null : found["b"].AsBinary);
    }

    async ValueTask<bool> IEditionLedger.AppendAsync(ChainedRecord record, CancellationToken cancellation)
    {
        // Reads all of it first: a damaged chain is refused here.
        Read(ChainDocuments.LoadLedger);
        return await DoAsync(() => ChainDocuments.Append(_file.Database, ChainDocuments.Ledger, record)).ConfigureAwait(false);
    }

    ValueTask<ImmutableArray<ChainedRecord>> IEditionLedger.ReadAsync(CancellationToken cancellation) => ValueTask.FromResult(Read(ChainDocuments.LoadLedger));

    public ValueTask<ImmutableArray<string>> ConversationsAsync(CancellationToken cancellation) => ValueTask.FromResult(Read(CardDocuments.All));

    /// <summary>Ends at once: one process has the file.</summary>
    public IAsyncEnumerable<ChangedElsewhere> ListenAsync(CancellationToken cancellation) => AsyncEnumerable.Empty<ChangedElsewhere>();

    public ValueTask<long> SizeAsync(CancellationToken cancellation) => ValueTask.FromResult(_file.SizeBytes);

    /// <summary>There is no other process.</summary>
    public ValueTask<IAsyncDisposable?> ClaimAsync(string work, CancellationToken cancellation) => ValueTask.FromResult<IAsyncDisposable?>(new NoHold());

    public async ValueTask DisposeAsync()
    {
        await _checkpoints.DisposeAsync().ConfigureAwait(false);
        await _renewal.DisposeAsync().ConfigureAwait(false);
        _writer.Dispose();
        if (IsHealthy)
            _file.Dispose();
        else
            _file.Abandon();
        _lock.Dispose();
    }

    /// <summary>Erases conversations with all that is kept of them, and those that a visit joins to them.</summary>
    /// <param name="which">Asked on the writer's thread.</param>
    /// <param name="list">See <see cref="StoreOptions.ErasureList"/>; null for what is only swept.</param>
    internal async Task<int> EraseAsync(Func<IReadOnlyCollection<string>> which, string? list = null)
    {
        var erased = await DoAsync(() => Erase(which(), list)).ConfigureAwait(false);
        if (erased > 0)
            await RenewAsync().ConfigureAwait(false);
        return erased;
    }

    /// <summary>Says on the disk that something is about to be deleted. To be called by the one writer.</summary>
    internal void Announce() => _renewal.Announce();

    /// <summary>Ends once nothing of what was deleted stands in the file; turns are taken meanwhile.</summary>
    internal Task RenewAsync() => _renewal.RenewAsync(work => DoAsync(work, isAlone: false));

    int Erase(IReadOnlyCollection<string> conversations, string? list)
    {
        var present = VisitDocuments.WithJoined(_file.Database, conversations).Where(c => TurnDocuments.Of(_file.Database, c).Any()).ToArray();
        if (present.Length == 0)
            return 0;
        ErasureList.Add(list, present);
        Announce();
        Delete(present, KeyDocuments.Of(_file.All(KeyDocuments.Collection), present));
        return present.Length;
    }

    /// <summary>Deletes those of them that are over. What is deleted stands in the file until it is written anew.</summary>
    int Sweep(IEnumerable<string> due, ILookup<string, string> keys, long lastTurnBefore)
    {
        var still = due.Where(c => CardDocuments.IsOver(_file.Database, c, lastTurnBefore)).ToArray();
        if (still.Length > 0)
        {
            Announce();
            Delete(still, keys);
        }

        return still.Length;
    }

    /// <param name="keys">By conversation, what opens it.</param>
    void Delete(IReadOnlyList<string> conversations, ILookup<string, string> keys)
    {
        var database = _file.Database;
        foreach (var some in conversations.Chunk(DeletedTogether))
        {
            database.BeginTrans();
            var deleted = some.SelectMany(c => WholeConversation.Delete(database, c, keys[c])).ToList();
            if (!database.Commit())
                throw new InvalidOperationException("The database did not commit.");
            deleted.ForEach(d => _renewal.Note(d.Collection, d.Id));
            foreach (var conversation in some)
                _writer.Forget(conversation);
        }

        _keys.ForgetAll();
    }

    /// <summary>What was remembered of what is kept is not known any more. To be called by the one writer.</summary>
    internal void Forget()
    {
        _keys.ForgetAll();
        _writer.ForgetAll();
    }

    internal T Read<T>(Func<LiteDatabase, T> read)
    {
        if (_writer.Failure is { } earlier)
            throw new StoreFailedException("The store has failed: " + earlier.Message, earlier);
        try
        {
            return _file.Read(read);
        }
        catch (Exception failure) when (failure is IOException or LiteException or ObjectDisposedException)
        {
            throw new StoreFailedException("The store cannot be read: " + failure.Message, failure);
        }
    }

    internal async Task<T> DoAsync<T>(Func<T> work, bool isAlone = true)
    {
        var request = new WorkRequest<T>(work, isAlone);
        _writer.Post(request);
        return await request.Done.ConfigureAwait(false);
    }

    void PostCheckpoint()
    {
        if (IsHealthy)
        {
            try
            {
                _writer.Post(new WorkRequest<bool>(() =>
                {
                    _file.Database.Checkpoint();
                    return true;
                }));
            }
            catch (StoreFailedException)
            {
                // The queue is full or closing: the next tick comes, or none is needed.
            }
        }
    }
}
