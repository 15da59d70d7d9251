using CsCheck;
using EarHelp.Triage.Facts;

namespace EarHelp.Triage.Tests.Facts;

public sealed class ValueSetTests
{
    static readonly Gen<int[]> SomeIndexes = Gen.Int[0, 20].Array[0, 12];

    [Fact]
    public void Behaves_like_a_set_of_numbers() =>
        Gen.Select(SomeIndexes, SomeIndexes).Sample(
            (one, other) =>
            {
                var (mine, theirs) = (ValueSet.OfMany(one), ValueSet.OfMany(other));
                Assert.Equal(one.Union(other).Order(), Members(mine.Union(theirs)));
                Assert.Equal(one.Intersect(other).Order(), Members(mine.Intersect(theirs)));
                Assert.Equal(Enumerable.Range(0, 21).Except(one), Members(mine.Complement(21)));
                Assert.Equal(one.Distinct().Count(), mine.Count);
                Assert.Equal(one.ToHashSet().IsSubsetOf(other), mine.IsSubsetOf(theirs));
            },
            iter: 2_000);

    [Fact]
    public void Is_the_same_set_however_it_was_put_together() =>
        SomeIndexes.Sample(
            indexes => Assert.Equal(
                ValueSet.OfMany(indexes),
                indexes.Aggregate(ValueSet.Empty, (set, i) => ValueSet.Of(i).Union(set))),
            iter: 1_000);

    [Fact]
    public void Counts_the_steps_of_a_range_of_numbers()
    {
        var temperature = new FactValues.Numbers(34.0m, 43.0m, 0.1m, "°C");

        Assert.Equal(91, temperature.Count);
        Assert.Equal(40, temperature.IndexOf(38.0m));
        Assert.Null(temperature.IndexOf(38.05m));
        Assert.Null(temperature.IndexOf(43.1m));
        Assert.Equal(ValueSet.Between(40, 90), temperature.Between(37.95m, 99));
        Assert.True(temperature.Between(50, 60).IsEmpty);
        Assert.True(temperature.Between(10, 20).IsEmpty);
    }

    static IEnumerable<int> Members(ValueSet set) => set.Ranges.SelectMany(r => Enumerable.Range(r.First, r.Last - r.First + 1));
}
