using EarHelp.Triage.Texts;

namespace EarHelp.Content.Examples;

/// <summary>One thing that must come out of an example; a list in a cell is several of them.</summary>
public abstract record Expected(SourceSpot Spot)
{
    /// <param name="Rank">0 is the most urgent.</param>
    public sealed record Level(int Rank, SourceSpot Spot) : Expected(Spot);

    /// <summary>The first of the places that the person can reach, before opening hours.</summary>
    public sealed record FirstPlace(int Destination, SourceSpot Spot) : Expected(Spot);

    public sealed record AdviceShown(int Item, SourceSpot Spot) : Expected(Spot);

    public sealed record AdviceNotShown(int Item, SourceSpot Spot) : Expected(Spot);

    /// <summary>A "never if" of the item holds that names the fact, whatever else hides the item too.</summary>
    /// <param name="Fact">A fact or a named fact.</param>
    public sealed record ShutBy(int Item, string Fact, SourceSpot Spot) : Expected(Spot);

    public sealed record Warning(string Name, SourceSpot Spot) : Expected(Spot);

    public sealed record WarningNotGiven(string Name, SourceSpot Spot) : Expected(Spot);

    /// <param name="Hold">The words after "not until"; null: the clinic may treat.</param>
    public sealed record MayTreat(string? Hold, SourceSpot Spot) : Expected(Spot);

    /// <summary>The row gave the level.</summary>
    public sealed record DecidedBy(int Rule, SourceSpot Spot) : Expected(Spot);

    /// <summary>A row that is not there gave the level: never so.</summary>
    public sealed record DecidedByMissing(string Rule, SourceSpot Spot) : Expected(Spot);

    public sealed record ExplanationShown(int Explanation, SourceSpot Spot) : Expected(Spot);

    public sealed record ExplanationNotShown(int Explanation, SourceSpot Spot) : Expected(Spot);
}
