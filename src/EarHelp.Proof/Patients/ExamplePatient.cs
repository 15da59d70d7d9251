using System.Collections.Immutable;
using EarHelp.Triage.Answers;

namespace EarHelp.Proof.Patients;

/// <summary>One possible patient who shows something.</summary>
/// <param name="Answers">By fact; a fact that does not apply is told so.</param>
/// <param name="InWords">For the clinician who reads a finding.</param>
/// <param name="Json">One line that <c>earhelp assess --closed</c> takes.</param>
public sealed record ExamplePatient(ImmutableArray<Answer> Answers, string InWords, string Json)
{
    public override string ToString() => InWords;
}
