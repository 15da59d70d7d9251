using System.Collections.Immutable;

namespace EarHelp.Conversation.Searching;

/// <summary>That an outcome was told by a rule. It names no person and holds no text of one.</summary>
/// <param name="Turn">Number of the turn that told it.</param>
/// <param name="AtUnixMilliseconds">When, UTC.</param>
/// <param name="Outcome">The level's id.</param>
/// <param name="Rows">The rule's rows that matched.</param>
/// <param name="Decided">True if one of them decided; false: another row was at least as urgent.</param>
/// <param name="IsOpen">True if the conversation waits for an answer now.</param>
public sealed record ToldByRule(string Conversation, int Turn, long AtUnixMilliseconds, string Outcome, ImmutableArray<string> Rows, bool Decided, bool IsOpen);

/// <param name="Told">Sorted by time.</param>
/// <param name="Unreadable">Conversations that could not be read, sorted: nobody knows what these were told.</param>
public sealed record Recall(ImmutableArray<ToldByRule> Told, ImmutableArray<string> Unreadable);
