using System.Collections.Immutable;
using System.IO.Compression;
using System.Text;

namespace EarHelp.Content.Sources;

/// <summary>All sources of an edition as one compressed array of bytes, to keep beside the conversations it served.</summary>
public static class SourcePack
{
    const int MaximumBytes = 64 * 1024 * 1024;
    static readonly UTF8Encoding StrictUtf8 = new(false, true);

    /// <summary>The same sources give the same bytes, in whatever order they come.</summary>
    public static byte[] Pack(ImmutableArray<SourceFile> sources)
    {
        using var packed = new MemoryStream();
        using (var compressed = new BrotliStream(packed, CompressionLevel.Optimal, leaveOpen: true))
        using (var writer = new BinaryWriter(compressed, StrictUtf8))
        {
            writer.Write(sources.Length);
            foreach (var file in sources.OrderBy(s => s.Path, StringComparer.Ordinal))
            {
                writer.Write(file.Path);
                writer.Write(file.Bytes.Length);
                writer.Write(file.Bytes.Span);
            }
        }

        return packed.ToArray();
    }

    /// <exception cref="InvalidDataException">The bytes were not made by <see cref="Pack"/>, or are damaged.</exception>
    public static ImmutableArray<SourceFile> Unpack(ReadOnlyMemory<byte> packed)
    {
        try
        {
            using var compressed = new BrotliStream(new MemoryStream(packed.ToArray()), CompressionMode.Decompress);
            using var reader = new BinaryReader(compressed, StrictUtf8);
            var files = ImmutableArray.CreateBuilder<SourceFile>();
            var count = reader.ReadInt32();
            if (count < 0)
                throw new InvalidDataException($"A pack of {count} sources.");
            for (var left = count; left > 0; left--)
            {
                var path = reader.ReadString();
                var length = reader.ReadInt32();
                if (length is < 0 or > MaximumBytes)
                    throw new InvalidDataException($"A file of {length} bytes in a pack of sources; at most {MaximumBytes} bytes are possible.");
                var bytes = reader.ReadBytes(length);
                if (bytes.Length != length)
                    throw new InvalidDataException($"A pack of sources ends after {bytes.Length} of {length} bytes of \"{path}\".");
                files.Add(new SourceFile(path, bytes));
            }

            return files.ToImmutable();
        }
        catch (Exception e) when (e is EndOfStreamException or InvalidOperationException or DecoderFallbackException or FormatException)
        {
            throw new InvalidDataException("These bytes are not a pack of sources.", e);
        }
    }
}
