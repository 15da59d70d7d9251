using System.Buffers.Binary;
using System.Collections.Immutable;
using System.Security.Cryptography;

namespace EarHelp.Storage.Moving;

/// <summary>
/// How many rows of each part there are, and a sum of the hashes of their bytes (modulo 2^256), which is the same in whatever order they come.
/// It finds what was lost, doubled or changed on the way; it is no defence against somebody who wants to forge it.
/// </summary>
sealed class Tally
{
    readonly Dictionary<Part, (long Count, UInt128 High, UInt128 Low)> _parts = Part.All.ToDictionary(p => p, _ => (0L, UInt128.Zero, UInt128.Zero));

    public void Add(Row row)
    {
        Span<byte> hash = stackalloc byte[SHA256.HashSizeInBytes];
        SHA256.HashData(RowJson.Write(row), hash);
        var (count, high, low) = _parts[row.Part];
        unchecked
        {
            var sum = low + BinaryPrimitives.ReadUInt128BigEndian(hash[16..]);
            var carry = sum < low ? UInt128.One : UInt128.Zero;
            _parts[row.Part] = (count + 1, high + BinaryPrimitives.ReadUInt128BigEndian(hash) + carry, sum);
        }
    }

    public ImmutableArray<CountedPart> Counted() =>
        [.. Part.All.Select(p => new CountedPart(p.Name, _parts[p].Count, _parts[p].High.ToString("x32", null) + _parts[p].Low.ToString("x32", null)))];
}

/// <summary>How much there is of one kind of thing that is kept.</summary>
/// <param name="Hash">Over all of it, 64 hex digits; the same in every store.</param>
public sealed record CountedPart(string Name, long Count, string Hash);
