using CsCheck;
using EarHelp.Triage.Diagrams;
using EarHelp.Triage.Facts;

namespace EarHelp.Proof.Tests.Spaces;

/// <summary>Sets of values as intervals, held against plain sets of numbers.</summary>
public sealed class IntervalTests
{
    const int Domain = 60;

    static readonly Gen<HashSet<int>> Members = Gen.Int[0, Domain - 1].List[0, 25].Select(l => l.ToHashSet());

    [Fact]
    public void Union_intersection_and_complement_are_those_of_the_members()
    {
        Gen.Select(Members, Members).Sample((one, other) =>
        {
            var (a, b) = (ValueSet.OfMany(one), ValueSet.OfMany(other));
            return a.Union(b).Equals(ValueSet.OfMany(one.Union(other)))
                && a.Intersect(b).Equals(ValueSet.OfMany(one.Intersect(other)))
                && a.Complement(Domain).Equals(ValueSet.OfMany(Enumerable.Range(0, Domain).Except(one)))
                && a.Overlaps(b) == one.Overlaps(other)
                && a.IsSubsetOf(b) == one.IsSubsetOf(other)
                && a.Count == one.Count;
        });
    }

    [Fact]
    public void Ranges_are_sorted_and_never_touch()
    {
        Members.Sample(members => ValueSet.OfMany(members).Ranges is var ranges && ranges.Zip(ranges.Skip(1)).All(p => p.First.Last + 1 < p.Second.First));
    }

    [Fact]
    public void Classes_split_the_values_exactly_where_a_told_set_tells_them_apart()
    {
        Gen.Select(Members, Members, Members).Sample((one, other, third) =>
        {
            ValueSet[] told = [ValueSet.OfMany(one), ValueSet.OfMany(other), ValueSet.OfMany(third)];
            var classes = ValueClasses.Split(Domain, told);
            return Enumerable.Range(0, Domain).All(a => Enumerable.Range(0, Domain).All(b => classes.ClassOf(a) == classes.ClassOf(b) == told.All(t => t.Contains(a) == t.Contains(b))))
                && classes.Members.Sum(m => m.Count) == Domain;
        });
    }
}
