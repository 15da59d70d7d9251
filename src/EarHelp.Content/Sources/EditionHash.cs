using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;

namespace EarHelp.Content.Sources;

/// <summary>The address of an edition: a hash of all its sources.</summary>
public static class EditionHash
{
    /// <summary>Lower-case hex SHA-256 over the paths and contents in the order of the paths; the kind of line end makes no difference.</summary>
    public static string Of(ImmutableArray<SourceFile> sources)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        foreach (var source in sources.OrderBy(s => s.Path, StringComparer.Ordinal))
        {
            var bytes = WithPlainLineEnds(source.Bytes.Span);
            hash.AppendData(Encoding.UTF8.GetBytes($"{source.Path}\n{bytes.Length}\n"));
            hash.AppendData(bytes);
        }

        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }

    static byte[] WithPlainLineEnds(ReadOnlySpan<byte> bytes)
    {
        var plain = new List<byte>(bytes.Length);
        foreach (var b in bytes)
        {
            if (b != (byte)'\r')
                plain.Add(b);
        }

        return [.. plain];
    }
}
