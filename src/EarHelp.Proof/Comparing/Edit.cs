using EarHelp.Triage.Texts;

namespace EarHelp.Proof.Comparing;

/// <summary>A row that is not as it was.</summary>
/// <param name="Kind">"rule", "named fact", "fact" …</param>
/// <param name="How">"added", "taken out", "changed", "moved".</param>
/// <param name="Spot">In the new edition; of what was taken out, in the old one.</param>
public sealed record Edit(string Kind, string Name, string How, SourceSpot Spot)
{
    public const string DropsPlan = "drops plan", Finding = "finding", Aftercare = "aftercare row";

    /// <summary>True for rows of which patients read, and which decide nothing in the questions.</summary>
    public bool IsBesideTheQuestions => Kind is DropsPlan or Finding or Aftercare;

    public override string ToString() => $"{Kind} \"{Name}\" {How} ({Spot.File}:{Spot.Line})";
}
