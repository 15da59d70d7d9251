using System.Collections.Immutable;

namespace EarHelp.Triage.Answers;

/// <summary>Which ear is spoken about.</summary>
public enum Ear
{
    Left,
    Right,

    /// <summary>One of the two, and the person cannot tell which.</summary>
    Either,
}

/// <summary>What is known about the person and one ear.</summary>
/// <param name="OfFact">By index of the fact.</param>
public sealed record EarAnswers(Ear Ear, ImmutableArray<Answer> OfFact);
