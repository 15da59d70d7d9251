using System.Globalization;
using EarHelp.Conversation.Keeping;

namespace EarHelp.Storage.Disk;

/// <summary>One process at a time: LiteDB itself would let a second one in and break the file.</summary>
sealed class FolderLock : IDisposable
{
    readonly FileStream _lock;
    readonly string _holder;

    FolderLock(FileStream held, string holder)
    {
        _lock = held;
        _holder = holder;
    }

    /// <exception cref="StoreFailedException">Another process, or this one, holds the folder.</exception>
    public static FolderLock Take(StoreFolder folder)
    {
        FileStream held;
        try
        {
            held = new FileStream(folder.Lock, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
        }
        catch (IOException failure)
        {
            throw new StoreFailedException(
                $"The store {folder.Main} is in use: {HolderOf(folder)} holds {folder.Lock}. "
                + "Stop that process first, or give this one another data folder.",
                failure);
        }

        File.WriteAllText(folder.Holder, Environment.ProcessId.ToString(CultureInfo.InvariantCulture));
        return new FolderLock(held, folder.Holder);
    }

    public void Dispose()
    {
        File.Delete(_holder);
        _lock.Dispose();
    }

    static string HolderOf(StoreFolder folder)
    {
        try
        {
            var text = File.ReadAllText(folder.Holder).Trim();
            return int.TryParse(text, CultureInfo.InvariantCulture, out var id) ? $"process {id}" : "another process";
        }
        catch (IOException)
        {
            return "another process";
        }
    }
}
