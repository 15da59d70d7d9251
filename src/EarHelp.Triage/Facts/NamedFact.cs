using System.Collections.Immutable;
using EarHelp.Triage.Rules;
using EarHelp.Triage.Tables;
using EarHelp.Triage.Texts;

namespace EarHelp.Triage.Facts;

/// <summary>A fact that follows from others: the first row that fits gives its value.</summary>
/// <param name="Index">From 0 among the named facts; it may use earlier ones only.</param>
/// <param name="Otherwise">Index of the value if no row fits, or null if an author made sure that one always does.</param>
public sealed record NamedFact(
    int Index,
    string Id,
    FactValues.Named Values,
    ImmutableArray<NamedFactRow> Rows,
    int? Otherwise,
    SourceSpot Spot)
{
    /// <summary>What its author allows where several rows fit.</summary>
    public HitPolicy Policy { get; init; } = HitPolicy.First;
}

/// <param name="Conditions">All must hold.</param>
/// <param name="Value">Index among the named fact's values.</param>
public sealed record NamedFactRow(ImmutableArray<Condition> Conditions, int Value, ImmutableArray<string> Sources, SourceSpot Spot);
