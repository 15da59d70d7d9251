using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace EarHelp.Content.Dialogs;

/// <summary>The names that the conclusions of rules may use.</summary>
sealed class RuleNames(ImmutableArray<Level> levels, ImmutableArray<Destination> destinations, ImmutableArray<string> advice, ImmutableArray<Fact> facts, ProblemList problems)
{
    public NameIndex Levels { get; } = new("level", levels.Select(l => l.Id), problems);

    public NameIndex Destinations { get; } = new("destination", destinations.Select(d => d.Id), problems);

    public NameIndex Advice { get; } = new("advice item", advice, problems);

    public IEnumerable<string> LevelNames => levels.Select(l => l.Id);

    public ImmutableArray<string> DestinationNames { get; } = [.. destinations.Select(d => d.Id)];

    public ImmutableArray<string> AdviceNames => advice;

    public ImmutableArray<Fact> Facts => facts;

    public IEnumerable<string> AlwaysOpen => destinations.Where(d => d.Hours == DestinationHours.Always).Select(d => d.Id);

    public bool IsAlwaysOpen(int destination) => destinations[destination].Hours == DestinationHours.Always;
}
