using System.Collections.Immutable;
using EarHelp.Triage.Texts;

namespace EarHelp.Triage.Rules;

/// <summary>One row of the plan for the time after a visit.</summary>
/// <param name="Advice">Index of the advice item whose words it shows.</param>
/// <param name="Days">Days counted from the day of the visit, which is day 0; both belong to it.</param>
/// <param name="OnlyIf">Indices of findings: any of them calls for it. Empty: every visit does.</param>
/// <param name="NeverIf">Indices of findings: each one forbids it.</param>
public sealed record AftercareStep(
    int Index, int Advice, Figures Days, ImmutableArray<int> OnlyIf, ImmutableArray<int> NeverIf, ImmutableArray<string> Sources, SourceSpot Spot)
{
    /// <summary>True if it belongs into the plan of who has these findings.</summary>
    /// <param name="has">Whether a finding, by its index, is among them.</param>
    public bool IsPlannedFor(Func<int, bool> has) => (OnlyIf.IsEmpty || OnlyIf.Any(has)) && !NeverIf.Any(has);
}
