using System.ComponentModel;
using System.Runtime.InteropServices;

namespace EarHelp.Storage.Disk;

/// <summary>Names in a folder, changed so that the change outlives a loss of power.</summary>
static partial class FolderEntries
{
    public static void Replace(string from, string to, IDiskWatch? watch)
    {
        watch?.Renaming(from, to);
        File.Move(from, to, overwrite: true);
        Sync(Path.GetDirectoryName(to)!);
    }

    public static void Delete(string file, IDiskWatch? watch)
    {
        if (!File.Exists(file))
            return;
        watch?.Deleting(file);
        File.Delete(file);
    }

    /// <summary>Writes the folder itself to the device. On Windows the file system does so unasked (from memory).</summary>
    public static void Sync(string folder)
    {
        if (OperatingSystem.IsWindows())
            return;
        var descriptor = Open(folder, 0);
        if (descriptor < 0)
            throw Failure(folder);
        try
        {
            if (Fsync(descriptor) != 0)
                throw Failure(folder);
        }
        finally
        {
            _ = Close(descriptor);
        }
    }

    static IOException Failure(string folder)
    {
        var cause = new Win32Exception(Marshal.GetLastPInvokeError());
        return new IOException($"The folder {folder} could not be written to the device: {cause.Message}", cause);
    }

    [LibraryImport("libc", EntryPoint = "open", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    private static partial int Open(string path, int flags);

    [LibraryImport("libc", EntryPoint = "fsync", SetLastError = true)]
    private static partial int Fsync(int descriptor);

    [LibraryImport("libc", EntryPoint = "close", SetLastError = true)]
    private static partial int Close(int descriptor);
}
