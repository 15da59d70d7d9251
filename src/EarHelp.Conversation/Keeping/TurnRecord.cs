using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;

namespace EarHelp.Conversation.Keeping;

/// <summary>One answered turn as it is kept: what came in and what was replied, in the order of the conversation.</summary>
/// <param name="Conversation">Identifier of the conversation; not a secret and not derived from one.</param>
/// <param name="Number">From 1, without gaps.</param>
/// <param name="TurnId">The sender's own identifier of this turn: a repeated one is the same turn.</param>
/// <param name="AtUnixMilliseconds">When the turn was decided, UTC.</param>
/// <param name="EditionId">The edition that decided it.</param>
/// <param name="EngineVersion">The version of the program that decided it.</param>
/// <param name="Finished">True once the conversation has reached an outcome; unfinished ones are swept.</param>
/// <param name="Body">The turn and its typed replies, UTF-8 JSON written by the conversation; opaque to a store.</param>
/// <param name="PreviousHash">Hash of turn n-1 of this conversation; empty for the first.</param>
/// <param name="Hash">Lower-case hex SHA-256 over all of the above.</param>
public sealed record TurnRecord(
    string Conversation,
    int Number,
    string TurnId,
    long AtUnixMilliseconds,
    string EditionId,
    string EngineVersion,
    bool Finished,
    ReadOnlyMemory<byte> Body,
    string PreviousHash,
    string Hash)
{
    /// <summary>Makes the record of a turn, with its place in the chain of hashes.</summary>
    public static TurnRecord Chain(
        string conversation,
        int number,
        string turnId,
        long atUnixMilliseconds,
        string editionId,
        string engineVersion,
        bool finished,
        ReadOnlyMemory<byte> body,
        string previousHash)
    {
        var open = new TurnRecord(
            conversation, number, turnId, atUnixMilliseconds, editionId, engineVersion, finished, body, previousHash, string.Empty);
        return open with { Hash = open.ComputeHash() };
    }

    /// <summary>False if the record, or its link to its predecessor, was changed after it was made.</summary>
    public bool IsIntact(string previousHash) =>
        string.Equals(PreviousHash, previousHash, StringComparison.Ordinal)
        && string.Equals(Hash, ComputeHash(), StringComparison.Ordinal);

    string ComputeHash()
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        Span<byte> number = stackalloc byte[8];
        AppendText(hash, Conversation);
        AppendNumber(hash, number, Number);
        AppendText(hash, TurnId);
        AppendNumber(hash, number, AtUnixMilliseconds);
        AppendText(hash, EditionId);
        AppendText(hash, EngineVersion);
        AppendNumber(hash, number, Finished ? 1 : 0);
        AppendNumber(hash, number, Body.Length);
        hash.AppendData(Body.Span);
        AppendText(hash, PreviousHash);
        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }

    static void AppendText(IncrementalHash hash, string text)
    {
        Span<byte> length = stackalloc byte[8];
        var bytes = Encoding.UTF8.GetBytes(text);
        AppendNumber(hash, length, bytes.Length);
        hash.AppendData(bytes);
    }

    static void AppendNumber(IncrementalHash hash, Span<byte> buffer, long value)
    {
        BinaryPrimitives.WriteInt64BigEndian(buffer, value);
        hash.AppendData(buffer);
    }
}
