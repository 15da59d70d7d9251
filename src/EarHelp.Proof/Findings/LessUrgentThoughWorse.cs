using System.Collections.Immutable;
using System.Numerics;
using EarHelp.Proof.Patients;
using EarHelp.Triage.Texts;

namespace EarHelp.Proof.Findings;

/// <summary>A worse answer makes somebody less urgent.</summary>
/// <param name="After">The patient of the example after the worse answer.</param>
public sealed record LessUrgentThoughWorse(
    string Fact, string From, string To, string LevelBefore, string LevelAfter, ExamplePatient After,
    ImmutableArray<SourceSpot> Rows, ExamplePatient Shown, BigInteger Patients) : Finding(Rows, Shown, Patients)
{
    public override string Breaks => PropertyNames.Monotone;

    public override string Fault =>
        $"\"{Fact}\" gets worse from {From} to {To}, and the level falls from \"{LevelBefore}\" to \"{LevelAfter}\"; afterwards: {After.InWords}.";

    public override string Mend =>
        $"Let the row that decides before also match {To}, or write \"none, because …\" into the column \"worse towards\".";
}
