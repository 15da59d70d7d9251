using System.Collections.Immutable;
using System.Numerics;
using EarHelp.Triage.Texts;

namespace EarHelp.Proof.Findings;

/// <summary>Nobody ever meets something that was written.</summary>
public sealed record NeverReached(string Kind, string Name, ImmutableArray<SourceSpot> Rows) : Finding(Rows, null, BigInteger.Zero)
{
    public override string Breaks => PropertyNames.Reach;

    public override string Fault => $"No possible patient ever reaches the {Kind} \"{Name}\".";

    public override string Mend => "Mend its conditions, or take it out.";
}
