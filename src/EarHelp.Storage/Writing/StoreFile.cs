using System.Collections.Concurrent;
using EarHelp.Storage.Disk;
using EarHelp.Storage.Records;
using LiteDB;

namespace EarHelp.Storage.Writing;

/// <summary>The open database on synced streams, and the way to a new file without what was erased.</summary>
sealed class StoreFile : IDisposable
{
    internal static readonly string[] Collections =
    [
        TurnDocuments.Collection, CardDocuments.Collection, KeyDocuments.Collection, EditionDocuments.Collection, ChainDocuments.Ledger,
        RequestDocuments.Collection, RequestDocuments.Contacts, VisitDocuments.Collection, StaffDocuments.Collection, ChainDocuments.Audit,
        ClosingDocuments.Collection, IncidentDocuments.Collection, CallerDocuments.Collection, FollowUpDocuments.Collection, SealingKeyDocuments.Collection,
    ];

    // A LiteDB instance that met a failing disk brings the process down when it is collected: it is kept for the life of the process.
    static readonly ConcurrentBag<LiteDatabase> Failed = [];

    /// <summary>So that the end of a new file is short: pages of its log that are folded in at a time.</summary>
    const int NextCheckpointPages = 1_000;

    readonly StoreFolder _folder;
    readonly StoreOptions _options;

    // LiteDB gives a page of its memory that one thread is about to read to another one that needs room (pages in memory store must be non-shared):
    // one thread at a time is inside.
    readonly Lock _inside = new();
    SyncedFile _main;
    CommitLog _log;
    LiteDatabase _database;

    public StoreFile(StoreFolder folder, StoreOptions options)
    {
        (_folder, _options) = (folder, options);
        var isInterrupted = File.Exists(folder.Due) || File.Exists(folder.NextMain);
        if (!File.Exists(folder.Main))
            MakeEmpty();
        (_main, _log, _database) = Open(folder.Main, folder.Log, options.CheckpointPages);
        if (isInterrupted)
            WriteAnew();
    }

    /// <summary>For the writer's thread.</summary>
    public LiteDatabase Database => _database;

    /// <summary>Reads while nobody else is inside, and the file cannot be exchanged. Everybody waits meanwhile: in short pieces only.</summary>
    public T Read<T>(Func<LiteDatabase, T> read)
    {
        lock (_inside)
            return read(_database);
    }

    /// <summary>A whole collection in the order of its keys, read in short pieces: others come in between.</summary>
    public IEnumerable<BsonDocument> All(string collection)
    {
        for (BsonValue? after = BsonValue.MinValue; after is not null;)
        {
            var from = after;
            var some = Read(d => Pieces.After(d.GetCollection(collection), from));
            foreach (var document in some)
                yield return document;
            after = Pieces.EndOf(some);
        }
    }

    /// <summary>Does work of the writer's thread while nobody reads.</summary>
    public void Alone(Action work)
    {
        lock (_inside)
            work();
    }

    /// <summary>Says on the disk that a new file is due, so that a crash between erasing and copying leaves no erased text for good. For the writer's thread.</summary>
    public void Announce()
    {
        if (File.Exists(_folder.Due))
            return;
        _options.Watch?.Resizing(_folder.Due, 0);
        using (File.Create(_folder.Due))
        {
        }

        FolderEntries.Sync(_folder.Path);
    }

    /// <summary>Says that nothing that was erased stands in the main file any more. For the writer's thread.</summary>
    public void Settle() => FolderEntries.Delete(_folder.Due, _options.Watch);

    /// <summary>A new, empty file beside the one in use; worth nothing until it takes its place.</summary>
    public NextFile BeginNext()
    {
        FolderEntries.Delete(_folder.NextMain, _options.Watch);
        FolderEntries.Delete(_folder.NextLog, _options.Watch);
        var (main, log, database) = Open(_folder.NextMain, _folder.NextLog, NextCheckpointPages);
        return new NextFile(main, log, database);
    }

    /// <summary>Puts a filled file in the place of the one in use. For the writer's thread; others read on while it is brought to the device.</summary>
    public void Take(NextFile next)
    {
        next.Finish();
        lock (_inside)
            Exchange();
    }

    /// <summary>Removes a file that will not be taken.</summary>
    public void Drop(NextFile next)
    {
        next.Dispose();
        FolderEntries.Delete(_folder.NextMain, _options.Watch);
        FolderEntries.Delete(_folder.NextLog, _options.Watch);
    }

    /// <summary>Both files on the disk.</summary>
    public long SizeBytes => new[] { _folder.Main, _folder.Log }.Select(f => new FileInfo(f)).Sum(f => f.Exists ? f.Length : 0);

    /// <summary>True if nothing at all is kept.</summary>
    public bool IsEmpty() => Read(d => Collections.All(c => d.GetCollection(c).FindOne(Query.All()) is null));

    public void Dispose() => Close();

    /// <summary>Lets go of the files after a failure of the disk. What was acknowledged is in the log and is read at the next start.</summary>
    public void Abandon()
    {
        Keep(_database);
        _log.Dispose();
        _main.Dispose();
    }

    /// <summary>Keeps an instance that met a failing disk.</summary>
    public static void Keep(LiteDatabase failed) => Failed.Add(failed);

    /// <summary>The first file appears whole or not at all: one that was torn while it was made could never be opened again.</summary>
    void MakeEmpty()
    {
        using var next = BeginNext();
        next.Finish();
        FolderEntries.Delete(_folder.NextLog, _options.Watch);
        FolderEntries.Replace(_folder.NextMain, _folder.Main, _options.Watch);
    }

    /// <summary>Copies the live records to a new file, puts it in the place of the old one and unlinks that. At a start only.</summary>
    void WriteAnew()
    {
        using var copy = new FileCopy(this);
        while (copy.GoOn())
        {
        }

        copy.Take();
        Settle();
    }

    void Exchange()
    {
        FolderEntries.Delete(_folder.NextLog, _options.Watch);
        Close();
        FolderEntries.Delete(_folder.Log, _options.Watch);
        FolderEntries.Replace(_folder.NextMain, _folder.Main, _options.Watch);
        (_main, _log, _database) = Open(_folder.Main, _folder.Log, _options.CheckpointPages);
    }

    void Close()
    {
        _database.Dispose();
        _log.Dispose();
        _main.Dispose();
    }

    /// <summary>
    /// LiteDB shows the name of a new collection to readers before its first page can be read, and a reader in between breaks the store:
    /// all collections are there before anyone reads.
    /// </summary>
    static void Make(LiteDatabase database, string[] missing)
    {
        if (missing.Length == 0)
            return;
        database.BeginTrans();
        foreach (var collection in missing)
        {
            var made = database.GetCollection(collection);
            made.Insert(new BsonDocument { ["_id"] = collection });
            made.Delete(collection);
        }

        database.Commit();
    }

    (SyncedFile Main, CommitLog Log, LiteDatabase Database) Open(string main, string log, int checkpointPages)
    {
        var mainFile = new SyncedFile(main, FileOptions.None, _options.Watch);
        var logFile = new CommitLog(log, _options.Watch);
        var database = new LiteDatabase(mainFile, null, logFile);
        database.CheckpointSize = checkpointPages;
        Make(database, [.. Collections.Except(database.GetCollectionNames(), StringComparer.OrdinalIgnoreCase)]);
        FolderEntries.Sync(_folder.Path);
        return (mainFile, logFile, database);
    }
}
