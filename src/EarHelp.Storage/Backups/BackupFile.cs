using System.Collections.Frozen;
using System.IO.Compression;
using System.Runtime.CompilerServices;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using EarHelp.Conversation.Keeping;
using EarHelp.Storage.Moving;

namespace EarHelp.Storage.Backups;

/// <summary>A backup on the disk.</summary>
sealed class BackupFile(string path) : IRowSource
{
    static readonly FrozenDictionary<string, Part> Parts = Part.All.ToFrozenDictionary(p => p.Name, StringComparer.Ordinal);

    /// <summary>Its last line; known once all rows were read.</summary>
    public BackupContent? Content { get; private set; }

    /// <summary>Gives rows as they come. Only after the last one is it known that the file is whole: then nothing is thrown.</summary>
    public async IAsyncEnumerable<Row> ReadAsync([EnumeratorCancellation] CancellationToken cancellation)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        var tally = new Tally();
        var number = 0;
        await foreach (var line in LinesAsync(cancellation).ConfigureAwait(false))
        {
            number++;
            if (Content is not null)
                throw Damaged("something stands after its last line");
            if (number == 1 && !line.StartsWith(BackupWriter.Mark, StringComparison.Ordinal))
                throw new StoreFailedException($"{path} is no backup that this program can read: its first line does not begin with \"{BackupWriter.Mark.Trim()}\".");
            if (line.StartsWith(BackupWriter.End, StringComparison.Ordinal))
            {
                Content = End(line, hash);
                if (!Content.Parts.SequenceEqual(tally.Counted()))
                    throw Damaged("its rows are not those that were counted");
                continue;
            }

            hash.AppendData(Encoding.UTF8.GetBytes(line + "\n"));
            if (number == 1)
                continue;
            var row = Read(line, number);
            tally.Add(row);
            yield return row;
        }

        if (Content is null)
            throw Damaged("it is cut off, its last line is missing");
    }

    async IAsyncEnumerable<string> LinesAsync([EnumeratorCancellation] CancellationToken cancellation)
    {
        StreamReader lines;
        try
        {
            lines = new StreamReader(new GZipStream(File.OpenRead(path), CompressionMode.Decompress), new UTF8Encoding(false, throwOnInvalidBytes: true));
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw new StoreFailedException($"The backup cannot be read: {fault.Message}", fault);
        }

        using (lines)
        {
            while (await LineAsync(lines, cancellation).ConfigureAwait(false) is { } line)
                yield return line;
        }
    }

    async Task<string?> LineAsync(StreamReader lines, CancellationToken cancellation)
    {
        try
        {
            return await lines.ReadLineAsync(cancellation).ConfigureAwait(false);
        }
        catch (Exception fault) when (fault is InvalidDataException or DecoderFallbackException or IOException)
        {
            throw Damaged(fault.Message);
        }
    }

    BackupContent End(string line, IncrementalHash hash)
    {
        var parts = line.Split(' ', 3);
        hash.AppendData(Encoding.UTF8.GetBytes(parts[^1]));
        if (parts.Length != 3 || parts[1] != Convert.ToHexStringLower(hash.GetCurrentHash()))
            throw Damaged("its lines are not those that were written");
        try
        {
            return BackupContentJson.Read(parts[2]);
        }
        catch (JsonException fault)
        {
            throw Damaged(fault.Message);
        }
    }

    Row Read(string line, int number)
    {
        var blank = line.IndexOf(' ', StringComparison.Ordinal);
        if (blank < 0 || !Parts.TryGetValue(line[..blank], out var part))
            throw Damaged($"line {number} belongs to no part of a store");
        try
        {
            return RowJson.Read(part, Encoding.UTF8.GetBytes(line[(blank + 1)..]));
        }
        catch (FormatException fault)
        {
            throw Damaged($"line {number}: {fault.Message}");
        }
    }

    StoreFailedException Damaged(string why) => new($"The backup {path} is damaged: {why}. It is not used. Take another one.");
}
