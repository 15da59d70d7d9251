using System.Collections.Immutable;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace EarHelp.Proof.Mutating;

/// <summary>A cell names other values, or a bound is moved by one step.</summary>
static class CellMutations
{
    public static IEnumerable<Mutant> Of(Dialog dialog) =>
        from place in Places(dialog)
        from condition in place.Conditions
        from step in Steps(dialog, condition)
        select new Mutant(
            step.Kind, $"{place.Name}: \"{RowMutations.NameOf(dialog, condition.Of)}: {condition.Written}\" {step.What}", condition.Spot, place.With(condition, condition with { Values = step.Values }));

    static IEnumerable<Place> Places(Dialog dialog) =>
    [
        .. dialog.Rules.Select(r => new Place($"row \"{r.Id}\"", r.Conditions, (from, to) => RowMutations.WithRule(dialog, r with { Conditions = r.Conditions.Replace(from, to) }))),
        .. dialog.TreatRules.Select(t => new Place($"row \"{t.Id}\"", t.Conditions, (from, to) => dialog with { TreatRules = dialog.TreatRules.SetItem(t.Index, t with { Conditions = t.Conditions.Replace(from, to) }) })),
        .. dialog.NamedFacts.SelectMany(n => n.Rows.Select(r => new Place($"\"{n.Id}\"", r.Conditions, (from, to) => RowMutations.WithNamed(dialog, n with { Rows = n.Rows.Replace(r, r with { Conditions = r.Conditions.Replace(from, to) }) })))),
        .. dialog.Advice.Select(a => new Place($"item \"{a.Id}\", only if", a.OnlyIf, (from, to) => dialog with { Advice = dialog.Advice.SetItem(a.Index, a with { OnlyIf = a.OnlyIf.Replace(from, to) }) })),
        .. dialog.Advice.Select(a => new Place($"item \"{a.Id}\", never if", a.NeverIf, (from, to) => dialog with { Advice = dialog.Advice.SetItem(a.Index, a with { NeverIf = a.NeverIf.Replace(from, to) }) })),
    ];

    static IEnumerable<(MutationStep Kind, string What, ValueSet Values)> Steps(Dialog dialog, Condition condition)
    {
        var values = condition.Of.IsNamedFact ? dialog.NamedFacts[condition.Of.Index].Values : dialog.Facts[condition.Of.Index].Values;
        return values is FactValues.Numbers ? Bounds(condition.Values, values.Count) : Names(condition.Values, (FactValues.Named)values);
    }

    /// <summary>Of two values the other one; of more, each that stands there is left out, and each that does not is added.</summary>
    static IEnumerable<(MutationStep, string, ValueSet)> Names(ValueSet told, FactValues.Named values)
    {
        if (values.Count <= 2)
        {
            yield return (MutationStep.FlipValue, "flipped", told.Complement(values.Count));
            yield break;
        }

        for (var i = 0; i < values.Count; i++)
        {
            if (told.Only == i)
                yield return (MutationStep.FlipValue, "flipped", told.Complement(values.Count));
            else if (told.Contains(i))
                yield return (MutationStep.FlipValue, $"without {values.NameOf(i)}", told.Intersect(ValueSet.Of(i).Complement(values.Count)));
        }
    }

    static IEnumerable<(MutationStep, string, ValueSet)> Bounds(ValueSet told, int count)
    {
        foreach (var range in told.Ranges)
        {
            var others = told.Ranges.Where(r => r != range).Aggregate(ValueSet.Empty, (all, r) => all.Union(ValueSet.Between(r.First, r.Last)));
            if (range.First > 0)
            {
                yield return (MutationStep.MoveBound, "from one step lower", others.Union(ValueSet.Between(range.First - 1, range.Last)));
                yield return (MutationStep.MoveBound, "from one step higher", others.Union(ValueSet.Between(range.First + 1, range.Last)));
            }

            if (range.Last < count - 1)
            {
                yield return (MutationStep.MoveBound, "up to one step higher", others.Union(ValueSet.Between(range.First, range.Last + 1)));
                yield return (MutationStep.MoveBound, "up to one step lower", others.Union(ValueSet.Between(range.First, range.Last - 1)));
            }
        }
    }

    /// <summary>Where conditions stand, and the dialog with another one in the place of one of them.</summary>
    sealed record Place(string Name, ImmutableArray<Condition> Conditions, Func<Condition, Condition, Dialog> With);
}
