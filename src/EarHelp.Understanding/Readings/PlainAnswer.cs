using System.Collections.Immutable;

namespace EarHelp.Understanding.Readings;

/// <summary>An answer to the question that was asked, as if it had been chosen.</summary>
public sealed record PlainAnswer(ImmutableArray<PlainChoice> Choices, bool NoneOfThese);

/// <param name="Written">As a chosen answer writes a value; null with <paramref name="NotSure"/>.</param>
public sealed record PlainChoice(int Fact, string? Written, bool NotSure);

/// <summary>The question that a message may answer.</summary>
/// <param name="Facts">Indexes, in the order shown.</param>
/// <param name="IsChecklist">True if its facts are entries that are ticked.</param>
public sealed record AskedNow(string Screen, ImmutableArray<int> Facts, bool IsChecklist);
