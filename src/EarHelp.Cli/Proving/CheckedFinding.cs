using System.Collections.Immutable;
using System.Numerics;
using EarHelp.Content.Problems;
using EarHelp.Proof.Findings;
using EarHelp.Proof.Patients;
using EarHelp.Triage.Texts;

namespace EarHelp.Cli.Proving;

/// <summary>What a check found, of the files or of the proof, in one shape for editors.</summary>
/// <param name="Rule">The fault's code, or the property that does not hold.</param>
/// <param name="Spots">The first is the one to look at first.</param>
/// <param name="Patients">Null for a fault of the files: no patient is known to it.</param>
public sealed record CheckedFinding(
    string Rule, bool IsNotice, string Fault, string Mend, ImmutableArray<SourceSpot> Spots, ExamplePatient? Shown, BigInteger? Patients)
{
    public static CheckedFinding Of(Problem problem)
    {
        ArgumentNullException.ThrowIfNull(problem);
        return new CheckedFinding(problem.Code, false, problem.Fault, problem.Mend, [problem.Spot], null, null);
    }

    public static CheckedFinding Of(Finding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        return new CheckedFinding(finding.Breaks, finding.IsNotice, finding.Fault, finding.Mend, finding.Rows, finding.Shown, finding.Patients);
    }
}
