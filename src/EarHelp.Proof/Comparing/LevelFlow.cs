using System.Collections.Immutable;
using System.Numerics;
using EarHelp.Triage.Diagrams;

namespace EarHelp.Proof.Comparing;

/// <summary>How many patients go from one level to another, or stay.</summary>
/// <param name="StepsDown">How many levels less urgent; negative: more urgent; 0 too where one side is not possible.</param>
public sealed record LevelFlow(string Before, string After, int StepsDown, BigInteger Patients)
{
    internal static ImmutableArray<LevelFlow> Of(ComparedSpaces both, LevelOrder order)
    {
        var (old, now) = (both.Old.Space, both.New.Space);
        return
        [
            .. from pair in new Pairing(both.Space).Differing(old.Roots.Level, now.Roots.Level, (one, other) => one is null && other is null)
               let names = (Before: DecisionChanges.NameOf(old, pair.Before), After: DecisionChanges.NameOf(now, pair.After))
               let patients = both.Count(pair.Set)
               where !patients.IsZero
               orderby order.Names.IndexOf(names.Before), order.Names.IndexOf(names.After)
               select new LevelFlow(names.Before, names.After, pair.Before is null || pair.After is null ? 0 : order.StepsDown(names.Before, names.After), patients),
        ];
    }
}
