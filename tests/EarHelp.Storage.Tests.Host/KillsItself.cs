using System.Diagnostics;
using EarHelp.Storage.Disk;

namespace EarHelp.Storage.Tests.Host;

/// <summary>Kills its own process just before the given write of a file.</summary>
sealed class KillsItself(int atWrite) : IDiskWatch
{
    int _writes;

    public void Writing(string file, long offset, ReadOnlySpan<byte> bytes, bool durable)
    {
        if (++_writes == atWrite)
            Process.GetCurrentProcess().Kill();
    }

    public void Syncing(string file)
    {
    }

    public void Resizing(string file, long length)
    {
    }

    public void Renaming(string from, string to)
    {
    }

    public void Deleting(string file)
    {
    }
}
