using System.Collections.Immutable;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace EarHelp.Cli.Exporting;

/// <summary>One decision table to be written.</summary>
/// <param name="HitPolicy">In the words of the standard.</param>
sealed record DmnTable(string Id, string Name, string HitPolicy, ImmutableArray<DmnOutput> Outputs, ImmutableArray<DmnRow> Rows)
{
    /// <summary>What its rows ask about, each once, in the order of the rows.</summary>
    public ImmutableArray<FactReference> Inputs => [.. Rows.SelectMany(r => r.Conditions).Select(c => c.Of).Distinct()];
}

/// <param name="Values">In their order, the most important first; empty: any.</param>
/// <param name="Default">What holds if no row matches, or null.</param>
sealed record DmnOutput(string Name, ImmutableArray<string> Values, string? Default);

/// <param name="Conditions">Several on one fact are met together.</param>
/// <param name="Results">One an output, as FEEL.</param>
sealed record DmnRow(ImmutableArray<Condition> Conditions, ImmutableArray<string> Results, string Annotation);
