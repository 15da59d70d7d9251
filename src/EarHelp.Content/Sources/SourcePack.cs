using System.Collections.Immutable;
using System.IO.Compression;
using System.Text;

namespace EarHelp.Content.Sources;

/// <summary>All sources of an edition in one piece, for the archive of served editions.</summary>
public static class SourcePack
{
    public static byte[] Pack(ImmutableArray<SourceFile> sources)
    {
        using var packed = new MemoryStream();
        using (var brotli = new BrotliStream(packed, CompressionLevel.Optimal, leaveOpen: true))
        using (var writer = new BinaryWriter(brotli, Encoding.UTF8))
        {
            writer.Write(sources.Length);
            foreach (var source in sources)
            {
                writer.Write(source.Path);
                writer.Write(source.Bytes.Length);
                writer.Write(source.Bytes.Span);
            }
        }

        return packed.ToArray();
    }

    public static ImmutableArray<SourceFile> Unpack(ReadOnlyMemory<byte> pack)
    {
        using var brotli = new BrotliStream(new MemoryStream(pack.ToArray()), CompressionMode.Decompress);
        using var reader = new BinaryReader(brotli, Encoding.UTF8);
        var count = reader.ReadInt32();
        var sources = ImmutableArray.CreateBuilder<SourceFile>(count);
        for (var i = 0; i < count; i++)
        {
            var path = reader.ReadString();
            sources.Add(new SourceFile(path, reader.ReadBytes(reader.ReadInt32())));
        }

        return sources.ToImmutable();
    }
}
