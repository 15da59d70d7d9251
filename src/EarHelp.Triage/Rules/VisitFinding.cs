using System.Collections.Immutable;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Texts;

namespace EarHelp.Triage.Rules;

/// <summary>What a clinician may record of a visit, and which facts that settles.</summary>
/// <param name="About">Of the person, or of one ear.</param>
public sealed record VisitFinding(int Index, string Id, About About, FindingKind Kind, ImmutableArray<FindingFact> Sets, ImmutableArray<string> Sources, SourceSpot Spot);

/// <param name="Fact">Index of an asked fact.</param>
/// <param name="Value">Index of its value.</param>
/// <param name="Days">Whole days after the day of the visit for which it counts; null: for good.</param>
public sealed record FindingFact(int Fact, int Value, int? Days);

/// <summary>Under which heading of the form a finding stands.</summary>
public enum FindingKind
{
    Done,
    Found,
    Learnt,
    Advised,
}
