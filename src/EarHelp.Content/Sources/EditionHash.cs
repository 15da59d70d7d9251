using System.Buffers.Binary;
using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;

namespace EarHelp.Content.Sources;

/// <summary>The address of an edition: SHA-256 over the paths and bytes of its sources.</summary>
/// <remarks>A byte-order mark and the kind of line end do not count, so that a checkout on another system has the same hash.</remarks>
public static class EditionHash
{
    /// <summary>Lower-case hex.</summary>
    public static string Of(ImmutableArray<SourceFile> sources)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        foreach (var file in sources.OrderBy(s => s.Path, StringComparer.Ordinal))
        {
            Append(hash, Encoding.UTF8.GetBytes(file.Path));
            Append(hash, Normalised(file.Bytes.Span));
        }

        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }

    // Each part is preceded by its length, so that no two lists of parts give the same bytes.
    static void Append(IncrementalHash hash, ReadOnlySpan<byte> part)
    {
        Span<byte> length = stackalloc byte[8];
        BinaryPrimitives.WriteInt64BigEndian(length, part.Length);
        hash.AppendData(length);
        hash.AppendData(part);
    }

    static byte[] Normalised(ReadOnlySpan<byte> bytes)
    {
        if (bytes.StartsWith((ReadOnlySpan<byte>)[0xEF, 0xBB, 0xBF]))
            bytes = bytes[3..];
        var kept = new byte[bytes.Length];
        var count = 0;
        for (var i = 0; i < bytes.Length; i++)
        {
            if (bytes[i] != '\r')
                kept[count++] = bytes[i];
            else if (i + 1 == bytes.Length || bytes[i + 1] != '\n')
                kept[count++] = (byte)'\n';
        }

        return kept[..count];
    }
}
