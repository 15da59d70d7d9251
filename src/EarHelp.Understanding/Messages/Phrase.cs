using EarHelp.Triage.Facts;

namespace EarHelp.Understanding.Messages;

/// <summary>What a phrase says: a value of a fact (null values: its figure), or that an emergency is there.</summary>
/// <param name="OnlyMentions">It names the fact and says nothing of it.</param>
readonly record struct Phrase(int? Fact, ValueSet? Values, int? Signpost, bool OnlyMentions = false);
