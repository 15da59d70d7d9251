using System.Collections.Immutable;

namespace EarHelp.Conversation.Searching;

/// <summary>A message that was not understood. It names no person and no conversation.</summary>
/// <param name="Day">ISO 8601, UTC.</param>
/// <param name="Screen">The question that was open; empty: none.</param>
/// <param name="Words">With what can be a name left out.</param>
public sealed record NotUnderstood(string Day, string Screen, string Words);

/// <param name="Messages">Sorted by day.</param>
/// <param name="Unreadable">How many conversations could not be read.</param>
public sealed record Unanswered(ImmutableArray<NotUnderstood> Messages, int Unreadable);
