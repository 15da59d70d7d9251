using EarHelp.Storage.Disk;
using LiteDB;

namespace EarHelp.Storage.Writing;

/// <summary>A file that is being filled and is to become the main file.</summary>
sealed class NextFile(SyncedFile main, CommitLog log, LiteDatabase database) : IDisposable
{
    bool _isFinished;

    public LiteDatabase Database => database;

    /// <summary>Folds the log in and brings all of it to the device. It takes no more.</summary>
    public void Finish()
    {
        database.Checkpoint();
        database.Dispose();
        main.Flush();
        Close();
    }

    public void Dispose()
    {
        if (_isFinished)
            return;
        database.Dispose();
        Close();
    }

    /// <summary>Lets go of it after a failure of the disk.</summary>
    public void Abandon()
    {
        if (_isFinished)
            return;
        StoreFile.Keep(database);
        Close();
    }

    void Close()
    {
        _isFinished = true;
        log.Dispose();
        main.Dispose();
    }
}
