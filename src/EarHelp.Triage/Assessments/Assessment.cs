using System.Collections.Immutable;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Rules;

namespace EarHelp.Triage.Assessments;

/// <summary>The result for a set of answers, before opening hours and clocks.</summary>
/// <param name="Level">Rank, once every completion gives the same; else null.</param>
/// <param name="AtLeast">The least urgent rank still possible: it is at least this urgent.</param>
/// <param name="AtMost">The most urgent rank still possible.</param>
/// <param name="Destinations">Indexes in order, of the level if settled, else of the most urgent one still possible; only those that can be reached.</param>
/// <param name="MayTreat">Null until settled.</param>
/// <param name="Rules">Rows that match, or may match, with the ear they speak of.</param>
/// <param name="Settled">Nothing that is still open can change any part of the result (or the most urgent level is certain).</param>
/// <param name="Open">Facts whose answer can still change the result.</param>
/// <param name="IsPossible">False if the answers cannot stand together.</param>
public sealed record Assessment(
    int? Level,
    int AtLeast,
    int AtMost,
    ImmutableArray<int> Destinations,
    TreatDecision? MayTreat,
    ImmutableArray<GivenAdvice> Advice,
    ImmutableArray<string> Warnings,
    ImmutableArray<int> Explanations,
    ImmutableArray<MatchedRule> Rules,
    int? CountsFrom,
    bool Settled,
    ImmutableArray<OpenFact> Open,
    bool IsPossible);

/// <param name="Hold">The words after "not until", or null: the clinic may treat.</param>
public sealed record TreatDecision(string? Hold);

/// <param name="Ear">Null for an item about the person.</param>
public sealed record GivenAdvice(int Item, AdviceKind Kind, Ear? Ear);

/// <param name="Decides">True if the row gave the level.</param>
public sealed record MatchedRule(int Rule, Ear Ear, bool Decides);

/// <param name="Ear">Null for a fact about the person.</param>
public sealed record OpenFact(int Fact, Ear? Ear);
