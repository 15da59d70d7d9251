using System.Collections.Immutable;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Turns;
using EarHelp.Conversation.Withdrawing;

namespace EarHelp.Conversation.Records;

/// <summary>What a kept record holds of a turn: what came in and what was replied.</summary>
/// <param name="SchemaVersion">Raised when the written form changes; older forms stay readable.</param>
/// <param name="Withdrawn">What was withdrawn when it was decided; null: nothing.</param>
public sealed record TurnBody(int SchemaVersion, Turn Turn, ImmutableArray<Reply> Replies, Withdrawals? Withdrawn = null)
{
    public const int CurrentVersion = 1;
}
