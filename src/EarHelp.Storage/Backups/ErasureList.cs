using System.Collections.Immutable;
using EarHelp.Conversation.Keeping;

namespace EarHelp.Storage.Backups;

/// <summary>
/// Which conversations were erased, one identifier a line, in a file that is only ever added to. It is kept so that a backup that is restored
/// later brings none of them back, and holds nothing of what was said.
/// </summary>
public static class ErasureList
{
    /// <summary>The name of the file in a data folder.</summary>
    public const string FileName = "erased.txt";

    static readonly Lock OneAtATime = new();

    /// <summary>On the disk when it returns. An identifier may stand twice.</summary>
    /// <exception cref="StoreFailedException">It cannot be written: then nothing is erased either.</exception>
    internal static void Add(string? path, IEnumerable<string> conversations)
    {
        if (path is null)
            return;
        try
        {
            lock (OneAtATime)
            {
                using var file = new FileStream(path, FileMode.Append, FileAccess.Write, FileShare.Read);
                file.Write(System.Text.Encoding.UTF8.GetBytes(string.Concat(conversations.Select(c => c + "\n"))));
                file.Flush(flushToDisk: true);
            }
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw new StoreFailedException($"The list of what was erased cannot be written ({fault.Message}). Nothing was erased.", fault);
        }
    }

    /// <exception cref="StoreFailedException">It cannot be read.</exception>
    public static ImmutableArray<string> Read(string path)
    {
        try
        {
            return [.. File.ReadLines(path).Where(l => l.Length > 0).Distinct(StringComparer.Ordinal)];
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw new StoreFailedException($"The list of what was erased cannot be read: {fault.Message}", fault);
        }
    }
}
