using System.Collections.Immutable;
using System.Numerics;
using EarHelp.Proof.Patients;
using EarHelp.Triage.Texts;

namespace EarHelp.Proof.Findings;

/// <summary>Somebody has no level, or nobody said whether the clinic may treat them.</summary>
/// <param name="What">The decision that no row makes.</param>
public sealed record NobodyDecides(string What, ImmutableArray<SourceSpot> Rows, ExamplePatient Shown, BigInteger Patients) : Finding(Rows, Shown, Patients)
{
    public override string Breaks => PropertyNames.Total;

    public override string Fault => $"No row decides {What} for some patients.";

    public override string Mend => "Add a row for them, or a last row with - in every condition.";
}

/// <summary>A level has no page in one language.</summary>
public sealed record NoOutcomePage(string Level, string Language, ImmutableArray<SourceSpot> Rows, ExamplePatient Shown, BigInteger Patients) : Finding(Rows, Shown, Patients)
{
    public override string Breaks => PropertyNames.Total;

    public override string Fault => $"The level \"{Level}\" has no outcome page in \"{Language}\".";

    public override string Mend => $"Write its section in content/{Language}/.";
}
