using System.Collections.Immutable;
using EarHelp.Triage.Asking;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace EarHelp.Triage.Editions;

/// <summary>One purpose of a conversation: its facts in asking order and its decisions.</summary>
/// <param name="ScreensAtMost">The longest way to any outcome, in screens after the form, that its authors allow.</param>
public sealed record Dialog(
    string Id,
    int ScreensAtMost,
    ImmutableArray<Fact> Facts,
    ImmutableArray<NamedFact> NamedFacts,
    ImmutableArray<Screen> Screens,
    ImmutableArray<Rule> Rules,
    ImmutableArray<TreatRule> TreatRules,
    ImmutableArray<AdviceItem> Advice,
    ImmutableArray<Explanation> Explanations,
    ImmutableArray<ImpossiblePair> Impossible,
    ImmutableArray<Level> Levels,
    ImmutableArray<Destination> Destinations)
{
    /// <summary>Facts that are asked late and alone; the way to them does not count in how soon a person is told to call.</summary>
    public ImmutableArray<string> AskedGently { get; init; } = [];

    /// <summary>The warnings that rules name, each once, in reading order.</summary>
    public ImmutableArray<string> Warnings { get; } =
        [.. Rules.SelectMany(r => r.Warn).Distinct(StringComparer.Ordinal)];

    /// <summary>How drops are used, for advice items that name some.</summary>
    public ImmutableArray<DropsPlan> DropsPlans { get; init; } = [];

    /// <summary>What may be recorded of a visit, in the order of the form.</summary>
    public ImmutableArray<VisitFinding> Findings { get; init; } = [];

    /// <summary>The plan for the time after a visit, in the order in which it is read.</summary>
    public ImmutableArray<AftercareStep> Aftercare { get; init; } = [];

    /// <summary>A fact by its own name or by the name of the number counted from it.</summary>
    public Fact? FindFact(string id) =>
        Facts.FirstOrDefault(f => string.Equals(f.Id, id, StringComparison.Ordinal))
        ?? Facts.FirstOrDefault(f => string.Equals(f.DecidingId, id, StringComparison.Ordinal));
}
