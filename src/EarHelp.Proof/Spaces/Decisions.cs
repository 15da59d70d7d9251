using System.Collections.Immutable;
using EarHelp.Triage.Assessments;
using EarHelp.Triage.Diagrams;

namespace EarHelp.Proof.Spaces;

/// <summary>What a dialog decides, each as a diagram with an end of its own where the answers cannot stand together.</summary>
/// <param name="Level">Ends in ranks.</param>
/// <param name="Urgency">Ends in numbers of <see cref="WhereLists"/>.</param>
/// <param name="Treat">Ends in indexes of <paramref name="TreatDecisions"/>.</param>
/// <param name="Possible">The answers can stand together.</param>
sealed record Decisions(
    int Level,
    int Urgency,
    int Treat,
    ImmutableArray<TreatDecision> TreatDecisions,
    ImmutableArray<int> Advice,
    ImmutableArray<int> Warnings,
    ImmutableArray<int> Explanations,
    int Possible)
{
    public static Decisions Of(RootsBuilder composed, int[] arity)
    {
        var (possible, roots, _, _) = composed.Build(arity);
        return new Decisions(
            roots.Level, roots.Urgency, roots.Treat, composed.TreatDecisions, roots.Advice.Each, roots.Warnings.Each, roots.Explanations.Each, possible);
    }
}
