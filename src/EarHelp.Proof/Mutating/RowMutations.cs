using System.Collections.Immutable;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace EarHelp.Proof.Mutating;

/// <summary>A row is dropped, or two neighbours are swapped where their order matters.</summary>
static class RowMutations
{
    public static IEnumerable<Mutant> Of(Dialog dialog) => [.. Drops(dialog), .. Swaps(dialog)];

    static IEnumerable<Mutant> Drops(Dialog dialog)
    {
        // The row stays, so that examples may name it, and nobody meets it.
        foreach (var rule in dialog.Rules.Where(r => !r.IsOtherwise))
            yield return new Mutant(MutationStep.DropRow, $"row \"{rule.Id}\" dropped", rule.Spot, WithRule(dialog, rule with { Conditions = [Never(rule.Conditions)], AlsoSaidBy = [] }));
        foreach (var row in dialog.TreatRules.Where(t => !t.Conditions.IsEmpty))
            yield return new Mutant(MutationStep.DropRow, $"row \"{row.Id}\" dropped", row.Spot, dialog with { TreatRules = dialog.TreatRules.SetItem(row.Index, row with { Conditions = [Never(row.Conditions)] }) });
        foreach (var named in dialog.NamedFacts)
        {
            foreach (var row in named.Rows.Where(r => named.Otherwise is not null || !r.Conditions.IsEmpty))
                yield return new Mutant(MutationStep.DropRow, $"row of \"{named.Id}\" dropped: {string.Join("; ", row.Conditions.Select(c => $"{NameOf(dialog, c.Of)}: {c.Written}"))}", row.Spot, WithNamed(dialog, named with { Rows = named.Rows.Remove(row) }));
        }
    }

    static IEnumerable<Mutant> Swaps(Dialog dialog)
    {
        foreach (var (one, other) in dialog.TreatRules.Zip(dialog.TreatRules.Skip(1)).Where(p => p.First.Hold != p.Second.Hold))
        {
            var swapped = dialog.TreatRules.SetItem(one.Index, other with { Index = one.Index }).SetItem(other.Index, one with { Index = other.Index });
            yield return new Mutant(MutationStep.SwapRows, $"rows \"{one.Id}\" and \"{other.Id}\" swapped", one.Spot, dialog with { TreatRules = swapped });
        }

        foreach (var (one, other) in dialog.Rules.Zip(dialog.Rules.Skip(1)).Where(p => p.First.Level is not null && p.First.Level == p.Second.Level && !p.First.Where.SequenceEqual(p.Second.Where)))
        {
            var swapped = dialog.Rules.SetItem(one.Index, other with { Index = one.Index }).SetItem(other.Index, one with { Index = other.Index });
            yield return new Mutant(MutationStep.SwapRows, $"rows \"{one.Id}\" and \"{other.Id}\" swapped", one.Spot, dialog with { Rules = swapped });
        }

        foreach (var named in dialog.NamedFacts)
        {
            for (var i = 0; i + 1 < named.Rows.Length; i++)
            {
                if (named.Rows[i].Value != named.Rows[i + 1].Value)
                    yield return new Mutant(MutationStep.SwapRows, $"rows {i + 1} and {i + 2} of \"{named.Id}\" swapped", named.Rows[i].Spot, WithNamed(dialog, named with { Rows = named.Rows.SetItem(i, named.Rows[i + 1]).SetItem(i + 1, named.Rows[i]) }));
            }
        }
    }

    public static Dialog WithRule(Dialog dialog, Rule rule) => dialog with { Rules = dialog.Rules.SetItem(rule.Index, rule) };

    public static Dialog WithNamed(Dialog dialog, NamedFact named) => dialog with { NamedFacts = dialog.NamedFacts.SetItem(named.Index, named) };

    public static string NameOf(Dialog dialog, FactReference of) => of.IsNamedFact ? dialog.NamedFacts[of.Index].Id : dialog.Facts[of.Index].DecidingId;

    /// <summary>A condition that nobody meets.</summary>
    public static Condition Never(ImmutableArray<Condition> conditions) => conditions[0] with { Values = ValueSet.Empty };
}
