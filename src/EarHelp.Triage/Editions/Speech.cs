using System.Collections.Immutable;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Texts;

namespace EarHelp.Triage.Editions;

/// <summary>How people say things in their own words, as its authors list it. Patterns stand as written.</summary>
/// <param name="Classes">By name: words that mean the same inside a pattern.</param>
/// <param name="Signposts">By the signpost's name.</param>
/// <param name="Topics">By the answer's name: how people ask for it.</param>
/// <param name="Triggers">By kind: words that change what stands around them, such as a denial.</param>
public sealed record Speech(
    ImmutableArray<SpokenFact> Facts,
    ImmutableArray<SpokenList> Classes,
    ImmutableArray<SpokenList> Triggers,
    ImmutableArray<SpokenList> Topics,
    ImmutableArray<SpokenList> Signposts)
{
    public static Speech None { get; } = new([], [], [], [], []);
}

/// <param name="Fact">Index of the fact; null: the patterns say nothing of any, and keep what is inside them from being taken for one.</param>
/// <param name="Values">What the patterns say it is; null: the figure in them, for a fact that is a number.</param>
/// <param name="OnlyNames">The patterns name the fact and say nothing of it.</param>
public sealed record SpokenFact(int? Fact, ValueSet? Values, ImmutableArray<string> Patterns, SourceSpot Spot, bool OnlyNames = false);

public sealed record SpokenList(string Name, ImmutableArray<string> Patterns, SourceSpot Spot)
{
    /// <summary>The names in a pattern such as <c>+pain +ear cleaned lately</c>; none for a pattern of words.</summary>
    public static IEnumerable<string> FactsIn(string pattern)
    {
        ArgumentNullException.ThrowIfNull(pattern);
        return pattern.StartsWith('+') ? pattern.Split('+', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries) : [];
    }
}
