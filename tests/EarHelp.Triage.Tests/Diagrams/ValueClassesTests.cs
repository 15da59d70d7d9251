using EarHelp.Triage.Diagrams;
using EarHelp.Triage.Facts;

namespace EarHelp.Triage.Tests.Diagrams;

public sealed class ValueClassesTests
{
    [Fact]
    public void Splits_numbers_only_at_the_bounds_that_conditions_use()
    {
        var classes = ValueClasses.Split(36501, [ValueSet.Between(0, 3), ValueSet.Between(4, 90), ValueSet.Between(0, 30)]);

        Assert.Equal(
            [ValueSet.Between(0, 3), ValueSet.Between(4, 30), ValueSet.Between(31, 90), ValueSet.Between(91, 36500)],
            classes.Members.ToArray());
        Assert.Equal(3, classes.ClassOf(91));
        Assert.Equal(0b0110UL, classes.MaskOf(ValueSet.Between(25, 35)));
    }

    [Fact]
    public void Puts_values_together_that_no_condition_tells_apart()
    {
        var classes = ValueClasses.Split(5, [ValueSet.OfMany([1, 3])]);

        Assert.Equal([ValueSet.OfMany([0, 2, 4]), ValueSet.OfMany([1, 3])], classes.Members.ToArray());
    }

    [Fact]
    public void Refuses_more_classes_than_fit_one_word() =>
        Assert.Throws<DiagramLimitException>(() => ValueClasses.Split(100, [.. Enumerable.Range(0, 70).Select(ValueSet.Of)]));
}
