using System.Collections.Immutable;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Texts;

namespace EarHelp.Triage.Rules;

/// <summary>Something to do, or to leave alone, until seen.</summary>
/// <param name="OnlyIf">All must hold.</param>
/// <param name="NeverIf">Each one forbids.</param>
/// <param name="NotWhile">Withheld while either ear's level is at this rank or more urgent; null: never withheld for it.</param>
public sealed record AdviceItem(
    int Index,
    string Id,
    AdviceKind Kind,
    About About,
    ImmutableArray<Condition> OnlyIf,
    ImmutableArray<Condition> NeverIf,
    int? NotWhile,
    ImmutableArray<string> Sources,
    SourceSpot Spot)
{
    /// <summary>True if an answer could forbid the item.</summary>
    public bool HasGate => !NeverIf.IsEmpty || NotWhile is not null;
}

public enum AdviceKind
{
    /// <summary>Shown only if every possible answer allows it.</summary>
    ToDo,

    /// <summary>Shown if any possible answer calls for it; so are the next two.</summary>
    LeaveAlone,

    GetHelp,

    Protect,
}

/// <summary>An explanation and when it is shown.</summary>
public sealed record Explanation(int Index, string Id, ImmutableArray<Condition> OnlyIf, ImmutableArray<string> Sources, SourceSpot Spot);

/// <summary>Two conditions that cannot hold together.</summary>
public sealed record ImpossiblePair(Condition One, Condition Other, string Because, SourceSpot Spot);
