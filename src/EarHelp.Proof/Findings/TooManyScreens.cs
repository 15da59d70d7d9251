using System.Collections.Immutable;
using System.Numerics;
using EarHelp.Proof.Patients;
using EarHelp.Triage.Texts;

namespace EarHelp.Proof.Findings;

/// <summary>Asking takes longer than allowed.</summary>
/// <param name="Screens">The longest way, in screens after the form.</param>
/// <param name="Bound">The most that is allowed.</param>
/// <param name="To">Where the way leads.</param>
public sealed record TooManyScreens(int Screens, int Bound, string To, ImmutableArray<SourceSpot> Rows, ExamplePatient Shown, BigInteger Patients) : Finding(Rows, Shown, Patients)
{
    public override string Breaks => PropertyNames.Length;

    public override string Fault => $"The way to {To} takes up to {Screens} screens after the form; at most {Bound} are allowed.";

    public override string Mend => "Ask what decides earlier, put yes/no facts on one screen, or leave a question out.";
}
