using System.Collections.Immutable;
using EarHelp.Triage.Editions;

namespace EarHelp.Proof.Mutating;

/// <summary>Every way of changing a dialog in one small step, in reading order of each kind.</summary>
public static class Mutations
{
    public static ImmutableArray<Mutant> Of(Dialog dialog)
    {
        ArgumentNullException.ThrowIfNull(dialog);
        return
        [
            .. RowMutations.Of(dialog),
            .. CellMutations.Of(dialog),
            .. ConclusionMutations.Of(dialog),
            .. GateMutations.Of(dialog),
        ];
    }
}
