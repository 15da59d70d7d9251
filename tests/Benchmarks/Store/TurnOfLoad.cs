using System.Globalization;
using EarHelp.Conversation.Keeping;

namespace Benchmarks.Store;

/// <summary>One turn of the load, chained to the one before it, as a service would make it.</summary>
sealed record TurnOfLoad(TurnRecord Record)
{
    /// <summary>About the length of a question's turn with its typed replies, in bytes.</summary>
    const int BodyBytes = 1_500;

    static readonly byte[] Body = [.. Enumerable.Range(0, BodyBytes).Select(index => (byte)('a' + (index * 7 % 26)))];
    static readonly string Edition = new('e', 64);

    public static TurnOfLoad First(int conversation) =>
        Make(string.Create(CultureInfo.InvariantCulture, $"{unchecked((uint)(conversation * 2654435761L)):x8}-{conversation:x8}"), 1, string.Empty);

    public TurnOfLoad Next() => Make(Record.Conversation, Record.Number + 1, Record.Hash);

    static TurnOfLoad Make(string conversation, int number, string previousHash) => new(TurnRecord.Chain(
        conversation, number, string.Create(CultureInfo.InvariantCulture, $"{conversation}-{number:x8}"),
        1_700_000_000_000 + number, Edition, "0.1.0", finished: false, Body, previousHash));
}
