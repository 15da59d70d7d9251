using EarHelp.Triage.Editions;

namespace EarHelp.Proof.Mutating;

/// <summary>A row concludes something less urgent, or leaves out a warning, an item it gives or an item it withholds.</summary>
static class ConclusionMutations
{
    public static IEnumerable<Mutant> Of(Dialog dialog)
    {
        foreach (var rule in dialog.Rules)
        {
            if (rule.Level < dialog.Levels.Length - 1)
                yield return new Mutant(MutationStep.LowerLevel, $"row \"{rule.Id}\": \"{dialog.Levels[rule.Level.Value].Id}\" lowered to \"{dialog.Levels[rule.Level.Value + 1].Id}\"", rule.Spot, RowMutations.WithRule(dialog, rule with { Level = rule.Level + 1 }));
            foreach (var item in rule.Withhold)
                yield return new Mutant(MutationStep.DropConclusion, $"row \"{rule.Id}\" no longer withholds \"{dialog.Advice[item].Id}\"", rule.Spot, RowMutations.WithRule(dialog, rule with { Withhold = rule.Withhold.Remove(item) }));
            foreach (var item in rule.Give)
                yield return new Mutant(MutationStep.DropConclusion, $"row \"{rule.Id}\" no longer gives \"{dialog.Advice[item].Id}\"", rule.Spot, RowMutations.WithRule(dialog, rule with { Give = rule.Give.Remove(item) }));
            foreach (var warning in rule.Warn)
                yield return new Mutant(MutationStep.DropConclusion, $"row \"{rule.Id}\" no longer warns \"{warning}\"", rule.Spot, RowMutations.WithRule(dialog, rule with { Warn = rule.Warn.Remove(warning) }));
        }
    }
}
