using System.Collections.Immutable;
using EarHelp.Triage.Facts;
using EarHelp.Understanding.Words;

namespace EarHelp.Understanding.Messages;

/// <summary>What a message says.</summary>
/// <param name="Marks">The words that changed what stands around them, for those who want to see why.</param>
public sealed record Said(ImmutableArray<SaidFact> Facts, ImmutableArray<SaidSignpost> Signposts, ImmutableArray<SaidMark> Marks);

/// <param name="Written">The value as a chosen answer writes it.</param>
/// <param name="Ear">"left", "right" or "both"; null: not said.</param>
/// <param name="Span">From the first to the last word that it rests on.</param>
public sealed record SaidFact(int Fact, string Written, string? Ear, Standing Standing, bool IsHedged, TextSpan Span);

public sealed record SaidSignpost(int Signpost, Standing Standing, TextSpan Span);

/// <param name="Kind">As the authors' table of context names it.</param>
public sealed record SaidMark(string Kind, TextSpan Span);

/// <summary>How a thing stands in a message.</summary>
public enum Standing
{
    Affirmed,
    Denied,

    /// <summary>Over.</summary>
    Past,

    /// <summary>Asked about or supposed.</summary>
    Supposed,

    /// <summary>Of somebody else.</summary>
    OfAnother,

    /// <summary>Named, in words that say too little to know more.</summary>
    Mentioned,
}
