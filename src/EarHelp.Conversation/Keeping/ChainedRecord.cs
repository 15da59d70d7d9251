using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;

namespace EarHelp.Conversation.Keeping;

/// <summary>One entry of a record that is only ever added to (the ledger of editions, the audit trail), chained to the one before it.</summary>
/// <param name="Number">From 1, without gaps.</param>
/// <param name="Body">UTF-8 JSON; opaque to a store.</param>
/// <param name="PreviousHash">Hash of entry n-1; empty for the first.</param>
/// <param name="Hash">Lower-case hex SHA-256 over all of the above.</param>
public sealed record ChainedRecord(int Number, ReadOnlyMemory<byte> Body, string PreviousHash, string Hash)
{
    public static ChainedRecord After(ChainedRecord? last, ReadOnlyMemory<byte> body)
    {
        var open = new ChainedRecord((last?.Number ?? 0) + 1, body, last?.Hash ?? string.Empty, string.Empty);
        return open with { Hash = open.ComputeHash() };
    }

    /// <summary>False if the entry, or its link to the one before, was changed after it was made.</summary>
    public bool Follows(ChainedRecord? last) =>
        Number == (last?.Number ?? 0) + 1
        && string.Equals(PreviousHash, last?.Hash ?? string.Empty, StringComparison.Ordinal)
        && string.Equals(Hash, ComputeHash(), StringComparison.Ordinal);

    string ComputeHash()
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        Span<byte> numbers = stackalloc byte[8];
        BinaryPrimitives.WriteInt32BigEndian(numbers, Number);
        BinaryPrimitives.WriteInt32BigEndian(numbers[4..], Body.Length);
        hash.AppendData(numbers);
        hash.AppendData(Body.Span);
        hash.AppendData(Encoding.UTF8.GetBytes(PreviousHash));
        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }
}
