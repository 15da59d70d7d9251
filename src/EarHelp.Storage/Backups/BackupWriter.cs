using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using EarHelp.Storage.Moving;

namespace EarHelp.Storage.Backups;

/// <summary>
/// Writes everything that a store keeps as text, compressed by gzip: a line that says what it is, a line a row, and a last line with a hash
/// of all other text in the file and the counts and hashes of each part. A store in use goes on taking turns meanwhile.
/// </summary>
public static class BackupWriter
{
    /// <summary>Stands at the start of the first line; the number is that of the form of the file.</summary>
    internal const string Mark = "earhelp-backup 1 ";

    /// <summary>Stands at the start of the last line.</summary>
    internal const string End = "end ";

    /// <param name="madeAt">Stands in the file, to the second.</param>
    /// <returns>What was written, with what is damaged in the store.</returns>
    /// <exception cref="Conversation.Keeping.StoreFailedException">The store cannot be read; what was written is no backup.</exception>
    public static async Task<BackupContent> WriteAsync(IStore store, Stream to, DateTimeOffset madeAt, CancellationToken cancellation)
    {
        var (tally, chains) = (new Tally(), new ChainCheck());
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        var packed = new GZipStream(to, CompressionLevel.Fastest, leaveOpen: true);
        await using (packed.ConfigureAwait(false))
        {
            var time = madeAt.ToUniversalTime().ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", null);
            await WriteLineAsync(Mark + time, []).ConfigureAwait(false);
            await foreach (var row in StoreMove.Whole(store).ReadAsync(cancellation).ConfigureAwait(false))
            {
                tally.Add(row);
                chains.Add(row);
                await WriteLineAsync(row.Part.Name + " ", RowJson.Write(row)).ConfigureAwait(false);
            }

            var content = new BackupContent(time, tally.Counted(), [.. chains.Damages]);
            var json = BackupContentJson.Write(content);
            hash.AppendData(json);
            await WriteLineAsync($"{End}{Convert.ToHexStringLower(hash.GetCurrentHash())} ", json).ConfigureAwait(false);
            return content;
        }

        async Task WriteLineAsync(string start, byte[] rest)
        {
            byte[] line = [.. Encoding.UTF8.GetBytes(start), .. rest, (byte)'\n'];
            hash.AppendData(line);
            await packed.WriteAsync(line, cancellation).ConfigureAwait(false);
        }
    }
}
