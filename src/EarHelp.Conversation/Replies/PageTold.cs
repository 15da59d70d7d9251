using System.Collections.Immutable;

namespace EarHelp.Conversation.Replies;

/// <summary>An answer to a question that was asked, exactly as it was told.</summary>
/// <param name="Page">The answer's name.</param>
/// <param name="IsOutOfDate">True if its review was overdue beyond the grace of the clinic: safe general advice is told in its place.</param>
/// <param name="Advice">Those of its items that are safe for this person, in the order of the page.</param>
public sealed record PageTold(string Page, bool IsOutOfDate, ImmutableArray<AdviceTold> Advice);
