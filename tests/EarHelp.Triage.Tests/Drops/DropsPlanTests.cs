using EarHelp.Triage.Rules;

namespace EarHelp.Triage.Tests.Drops;

/// <summary>
/// Drops in a millilitre: 20 of a dropper (USP 32, chapter 1101: 45 to 55 mg of water a drop), 26 of a real bottle (Am J Ophthalmol
/// 1986: 39 microlitres on average). The amounts are arithmetic.
/// </summary>
public sealed class DropsPlanTests
{
    [Theory]
    [InlineData(3, 2, 5, 1, 30, "1.5")]
    [InlineData(3, 4, 5, 1, 60, "3.0")]
    [InlineData(2, 3, 3, 1, 18, "0.9")]
    [InlineData(3, 1, 7, 1, 21, "1.05")]
    [InlineData(5, 2, 4, 1, 40, "2.0")]
    [InlineData(3, 4, 5, 2, 120, "6.0")]
    public void A_plan_takes_its_drops_at_twenty_in_a_millilitre(int each, int times, int days, int ears, int drops, string millilitres)
    {
        var amount = Plan(new(each, each), new(times, times), new(days, days)).AmountFor(ears);

        Assert.Equal(new Figures(drops, drops), amount.Drops);
        Assert.Equal(decimal.Parse(millilitres, System.Globalization.CultureInfo.InvariantCulture), amount.MostMillilitres);
    }

    [Fact]
    public void A_range_runs_from_the_fewest_small_drops_to_the_most_large_ones()
    {
        var amount = Plan(new(2, 3), new(2, 3), new(3, 5)).AmountFor(1);

        Assert.Equal(new Figures(12, 45), amount.Drops);
        Assert.Equal(12m / 26, amount.LeastMillilitres);
        Assert.Equal(2.25m, amount.MostMillilitres);
    }

    [Theory]
    [InlineData(200, true)]
    [InlineData(201, false)]
    public void A_bottle_of_ten_millilitres_lasts_for_two_hundred_drops(int drops, bool lasts) =>
        Assert.Equal(lasts, Plan(new(drops, drops), new(1, 1), new(1, 1)).BottleLasts(1));

    [Fact]
    public void A_bottle_may_last_for_one_ear_and_not_for_both()
    {
        var plan = Plan(new(5, 5), new(4, 4), new(10, 10));

        Assert.True(plan.BottleLasts(1));
        Assert.False(plan.BottleLasts(2));
    }

    static DropsPlan Plan(Figures each, Figures times, Figures days) => new(0, each, times, days, new(20, 26), 10, [], default);
}
