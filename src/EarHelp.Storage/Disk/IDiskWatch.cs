namespace EarHelp.Storage.Disk;

/// <summary>Sees every change of the store's files just before it is made. An exception from it is a failing disk.</summary>
interface IDiskWatch
{
    /// <param name="durable">True if the bytes are on the device when the write returns.</param>
    void Writing(string file, long offset, ReadOnlySpan<byte> bytes, bool durable);

    void Syncing(string file);

    void Resizing(string file, long length);

    void Renaming(string from, string to);

    void Deleting(string file);
}
