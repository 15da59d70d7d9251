using System.Collections.Immutable;
using EarHelp.Triage.Facts;
using EarHelp.Understanding.Words;

namespace EarHelp.Understanding.Readings;

/// <summary>What was understood of one message.</summary>
/// <param name="Plain">Set if the whole message is an answer to the question that was asked.</param>
/// <param name="Claims">What it says about facts, in the order of the text.</param>
public sealed record Reading(PlainAnswer? Plain, ImmutableArray<Claim> Claims, ImmutableArray<SeenSignpost> Signposts)
{
    public static Reading Nothing { get; } = new(null, [], []);
}

/// <summary>An answer to the question that was asked, as if it had been chosen.</summary>
public sealed record PlainAnswer(ImmutableArray<PlainChoice> Choices, bool NoneOfThese);

/// <param name="Written">As a chosen answer writes a value; null with <paramref name="NotSure"/>.</param>
public sealed record PlainChoice(int Fact, string? Written, bool NotSure);

/// <summary>Something said about a fact.</summary>
/// <param name="Written">The value as a chosen answer writes it.</param>
/// <param name="Span">The words it rests on.</param>
public sealed record Claim(int Fact, ValueSet Values, string Written, TextSpan Span, Certainty Certainty);

public sealed record SeenSignpost(int Signpost, TextSpan Span, Certainty Certainty);

/// <summary>How a thing was said.</summary>
public enum Certainty
{
    /// <summary>A word of denial stands before it.</summary>
    Denied,

    /// <summary>Said, with a letter mended.</summary>
    Mended,

    /// <summary>Said in words of the edition.</summary>
    Said,
}

/// <summary>The question that a message may answer.</summary>
/// <param name="Facts">Indexes, in the order shown.</param>
/// <param name="IsChecklist">True if its facts are entries that are ticked.</param>
public sealed record AskedNow(string Screen, ImmutableArray<int> Facts, bool IsChecklist);
