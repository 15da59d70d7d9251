using System.Collections.Immutable;
using EarHelp.Proof.Findings;
using EarHelp.Triage.Diagrams;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace EarHelp.Proof.Properties;

/// <summary>
/// Nothing is planned after a visit that an answer, known or still open, forbids. A visit with more findings than the one that calls for
/// a row leaves fewer answers open, so one finding at a time is enough.
/// </summary>
static class Aftercare
{
    public static IEnumerable<Finding> Of(ProofContext proof)
    {
        foreach (var step in proof.Dialog.Aftercare)
        {
            var item = proof.Dialog.Advice[step.Advice];
            var forbidden = proof.Space.Any(
                [.. item.NeverIf.Select(proof.Space.Of), .. proof.Dialog.Rules.Where(r => r.Withhold.Contains(item.Index)).Select(r => proof.Space.Matches[r.Index])]);
            if (forbidden != Terminal.False && FaultOf(proof, step, item, forbidden) is { } fault)
                yield return fault;
        }
    }

    static PlannedThoughForbidden? FaultOf(ProofContext proof, AftercareStep step, AdviceItem item, int forbidden)
    {
        foreach (var finding in CallingFor(proof, step))
        {
            var harmed = proof.Space.And(proof.Space.Possible, forbidden, Recorded(proof, finding));
            if (harmed != Terminal.False)
                return new PlannedThoughForbidden(item.Id, finding?.Id, [step.Spot, item.Spot], proof.Smallest.Of(harmed), proof.Count(harmed));
        }

        return null;
    }

    /// <summary>Null: a visit of which nothing is known.</summary>
    static VisitFinding?[] CallingFor(ProofContext proof, AftercareStep step) =>
        step.OnlyIf.IsEmpty ? [null] : [.. step.OnlyIf.Where(f => !step.NeverIf.Contains(f)).Select(f => proof.Dialog.Findings[f])];

    /// <summary>Whoever has what the finding records.</summary>
    static int Recorded(ProofContext proof, VisitFinding? finding) => proof.Space.And(
        [.. (finding?.Sets ?? []).Select(s => proof.Space.Of(new Condition(new FactReference(false, s.Fact), ValueSet.Of(s.Value), string.Empty, finding!.Spot)))]);
}
