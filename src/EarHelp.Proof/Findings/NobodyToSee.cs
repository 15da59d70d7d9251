using System.Collections.Immutable;
using System.Numerics;
using EarHelp.Proof.Patients;
using EarHelp.Triage.Texts;

namespace EarHelp.Proof.Findings;

/// <summary>An outcome names nobody who can be seen.</summary>
public sealed record NobodyToSee(string Level, ImmutableArray<SourceSpot> Rows, ExamplePatient Shown, BigInteger Patients) : Finding(Rows, Shown, Patients)
{
    public override string Breaks => PropertyNames.Defer;

    public override string Fault => $"At the level \"{Level}\" some patients can reach none of the destinations, or none that is always open.";

    public override string Mend => "End the column **where** with a destination that is always open and always reached.";
}

/// <summary>An outcome page leaves out something that it must say.</summary>
public sealed record OutcomeLeavesOut(string Outcome, string Language, string What, ImmutableArray<SourceSpot> Rows, ExamplePatient Shown, BigInteger Patients) : Finding(Rows, Shown, Patients)
{
    public override string Breaks => PropertyNames.Defer;

    public override string Fault => $"The outcome \"{Outcome}\" in \"{Language}\" does not say {What}.";

    public override string Mend => "Add it to its section.";
}
