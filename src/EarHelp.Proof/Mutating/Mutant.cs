using EarHelp.Triage.Editions;
using EarHelp.Triage.Texts;

namespace EarHelp.Proof.Mutating;

/// <summary>A dialog changed in one small step.</summary>
/// <param name="Step">The kind of step.</param>
/// <param name="What">What was changed, in words.</param>
/// <param name="Spot">Where the changed row or cell stands.</param>
public sealed record Mutant(MutationStep Step, string What, SourceSpot Spot, Dialog Dialog)
{
    public override string ToString() => $"{Spot}: {What}";
}

public enum MutationStep
{
    DropRow,
    FlipValue,
    MoveBound,
    LowerLevel,
    DropConclusion,
    DropGate,
    DropQuestion,
    SwapRows,
}
