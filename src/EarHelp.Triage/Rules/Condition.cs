using EarHelp.Triage.Facts;
using EarHelp.Triage.Texts;

namespace EarHelp.Triage.Rules;

/// <summary>A fact's value lies in a set. False where the fact does not apply.</summary>
/// <param name="Of">Which fact.</param>
/// <param name="Values">Indexes of the values that satisfy it.</param>
/// <param name="Written">The cell as its author wrote it.</param>
public sealed record Condition(FactReference Of, ValueSet Values, string Written, SourceSpot Spot);

/// <summary>An asked fact or a named fact, by index.</summary>
public readonly record struct FactReference(bool IsNamedFact, int Index);
