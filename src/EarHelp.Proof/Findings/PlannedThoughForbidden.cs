using System.Collections.Immutable;
using System.Numerics;
using EarHelp.Proof.Patients;
using EarHelp.Triage.Texts;

namespace EarHelp.Proof.Findings;

/// <summary>After a visit an item is planned that somebody after that visit is forbidden.</summary>
/// <param name="After">What was found; null: any visit.</param>
public sealed record PlannedThoughForbidden(string Item, string? After, ImmutableArray<SourceSpot> Rows, ExamplePatient Shown, BigInteger Patients) : Finding(Rows, Shown, Patients)
{
    public override string Breaks => PropertyNames.NoHarm;

    public override string Fault => After is null
        ? $"\"{Item}\" is planned after every visit, and may be forbidden to some who had one."
        : $"\"{Item}\" is planned after a visit with \"{After}\", and may be forbidden to some who had one.";

    public override string Mend => "Plan an item without a gate, which says itself when it is safe; what depends on answers is told by the questions.";
}
