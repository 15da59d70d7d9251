using EarHelp.Triage.Answers;

namespace EarHelp.Conversation.States;

/// <summary>What was typed of a fact and is no answer yet: it waits until it is confirmed, and until the fact applies.</summary>
/// <param name="Ear">Of a fact about an ear: which; null: the only one that is spoken about.</param>
/// <param name="Value">As in a chosen answer.</param>
/// <param name="Words">The person's own words that it rests on.</param>
public sealed record Heard(int Fact, Ear? Ear, string Value, string Words, bool IsConfirmed);
