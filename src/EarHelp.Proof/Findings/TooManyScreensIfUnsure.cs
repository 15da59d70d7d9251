using System.Collections.Immutable;
using System.Numerics;
using EarHelp.Triage.Texts;

namespace EarHelp.Proof.Findings;

/// <summary>Nobody who is sure is asked too much, but it was not shown of those who are unsure.</summary>
/// <param name="Screens">A proven upper bound, in screens after the form.</param>
/// <param name="Bound">The most that is allowed.</param>
/// <param name="To">Where the way leads.</param>
public sealed record TooManyScreensIfUnsure(int Screens, int Bound, string To, ImmutableArray<SourceSpot> Rows) : Finding(Rows, null, BigInteger.Zero)
{
    public override string Breaks => PropertyNames.Length;

    public override string Fault =>
        $"Whoever answers \"not sure\" may be asked up to {Screens} screens after the form before {To}; at most {Bound} are allowed. Nobody who is sure is asked so many.";

    public override string Mend => "Ask what decides earlier, put yes/no facts on one screen, or let the dialog allow more screens.";
}
