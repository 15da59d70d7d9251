using System.Collections.Immutable;
using EarHelp.Triage.Facts;

namespace EarHelp.Proof.Comparing;

/// <summary>One fact of two editions, with the values of both.</summary>
/// <param name="Old">Its index in the old dialog, or null: only the new one has it.</param>
/// <param name="New">Its index in the new dialog, or null: only the old one has it.</param>
/// <param name="OldValueAt">By value of the old fact, its place among <paramref name="Values"/>; of numbers the first value's place, as they keep their steps.</param>
sealed record FactMerge(string Id, int? Old, int? New, FactValues Values, ImmutableArray<int> OldValueAt, ImmutableArray<int> NewValueAt)
{
    /// <summary>The facts of both, those of the new dialog in its order, those that only the old one has after their neighbour there.</summary>
    public static ImmutableArray<FactMerge> Of(ImmutableArray<Fact> before, ImmutableArray<Fact> after)
    {
        var merged = after.Select(fact => Merge(before.FirstOrDefault(b => b.DecidingId == fact.DecidingId && b.About == fact.About), fact)).ToList();
        foreach (var fact in before.Where(b => merged.All(m => m.Old != b.Index)))
        {
            var neighbour = merged.FindIndex(m => m.Old == fact.Index - 1);
            var isNameTaken = after.Any(a => a.DecidingId == fact.DecidingId);
            merged.Insert(neighbour + 1, new FactMerge(isNameTaken ? $"{fact.DecidingId} (before)" : fact.DecidingId, fact.Index, null, fact.Values, Places(fact.Values, fact.Values), []));
        }

        return [.. merged];
    }

    public ValueSet OfOld(ValueSet values) => Moved(values, OldValueAt);

    public ValueSet OfNew(ValueSet values) => Moved(values, NewValueAt);

    static FactMerge Merge(Fact? before, Fact after)
    {
        var values = before is null ? null : Union(before.Values, after.Values);
        return values is null
            ? new FactMerge(after.DecidingId, null, after.Index, after.Values, [], Places(after.Values, after.Values))
            : new FactMerge(after.DecidingId, before!.Index, after.Index, values, Places(before.Values, values), Places(after.Values, values));
    }

    /// <summary>The values of both, or null if they are of different kinds or steps: then they are two facts.</summary>
    static FactValues? Union(FactValues before, FactValues after) => (before, after) switch
    {
        (FactValues.Named one, FactValues.Named other) => new FactValues.Named([.. other.Names, .. one.Names.Except(other.Names)]),
        (FactValues.Numbers one, FactValues.Numbers other) when one.Unit == other.Unit && one.Step == other.Step && (one.From - other.From) % one.Step == 0 =>
            new FactValues.Numbers(Math.Min(one.From, other.From), Math.Max(one.To, other.To), one.Step, other.Unit),
        _ => null,
    };

    static ImmutableArray<int> Places(FactValues own, FactValues all) => own is FactValues.Named named
        ? [.. named.Names.Select(n => all.IndexOf(n)!.Value)]
        : [((FactValues.Numbers)all).IndexOf(((FactValues.Numbers)own).From)!.Value];

    ValueSet Moved(ValueSet values, ImmutableArray<int> places) => Values is FactValues.Named
        ? ValueSet.OfMany(values.Ranges.SelectMany(r => Enumerable.Range(r.First, r.Last - r.First + 1)).Select(i => places[i]))
        : values.Ranges.Aggregate(ValueSet.Empty, (all, r) => all.Union(ValueSet.Between(r.First + places[0], r.Last + places[0])));
}
