using System.Numerics;

namespace EarHelp.Proof.Findings;

/// <summary>The proof did not finish: that is a fault, because nothing was shown.</summary>
public sealed record NotFinished(string Bound) : Finding([], null, BigInteger.Zero)
{
    public override string Breaks => "proof";

    public override string Fault => $"The proof could not finish: {Bound}";

    public override string Mend => "Let the tables tell fewer values apart, or split a table.";
}
