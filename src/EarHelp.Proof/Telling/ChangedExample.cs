using EarHelp.Triage.Texts;

namespace EarHelp.Proof.Telling;

/// <summary>An example patient who is told something else by the new edition.</summary>
public sealed record ChangedExample(string Name, SourceSpot Spot, string Before, string After)
{
    public override string ToString() => $"{Name} ({Spot.File}:{Spot.Line}): {Before} -> {After}";
}
