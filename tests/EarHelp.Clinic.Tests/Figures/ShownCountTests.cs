using EarHelp.Clinic.Figures;

namespace EarHelp.Clinic.Tests.Figures;

public sealed class ShownCountTests
{
    [Theory]
    [InlineData(0, "under 5")]
    [InlineData(4, "under 5")]
    [InlineData(5, "5")]
    [InlineData(7, "5")]
    [InlineData(8, "10")]
    [InlineData(12, "10")]
    [InlineData(13, "15")]
    public void Hides_what_is_under_five_and_rounds_the_rest_to_the_nearest_five(int count, string shown) =>
        Assert.Equal(shown, ShownCount.Of(count).ToString());

    [Theory]
    [InlineData(2, 17)]
    [InlineData(3, 12)]
    [InlineData(4, 7)]
    public void A_hidden_count_cannot_be_worked_out_of_the_others_and_their_total(int columns, int most) => Assert.Empty(GivenAway(Tables(columns, most), most, isGuarded: true));

    [Fact]
    public void Without_withholding_totals_two_hidden_counts_could_be_worked_out() => Assert.NotEmpty(GivenAway(Tables(2, 7), 7, isGuarded: false));

    /// <summary>
    /// Brute force: every table up to a largest count, put together by what is shown of it. Where all tables that look alike have the same number in
    /// a hidden place, that number is given away.
    /// </summary>
    static IEnumerable<string> GivenAway(IEnumerable<int[]> tables, int most, bool isGuarded)
    {
        foreach (var alike in tables.GroupBy(t => string.Join(' ', t.Select(c => ShownCount.Of(c))) + " of " + TotalOf(t, isGuarded)))
        {
            // A count at the edge could have larger neighbours that are not among the tables.
            var first = alike.First();
            if (first.Any(c => ShownCount.Of(c).To > most))
                continue;
            for (var column = 0; column < first.Length; column++)
            {
                if (ShownCount.Of(first[column]).Rounded is null && alike.Select(t => t[column]).Distinct().Count() == 1)
                    yield return alike.Key;
            }
        }
    }

    static ShownCount TotalOf(int[] table, bool isGuarded) =>
        isGuarded && HiddenParts.MayBeGivenAway([.. table.Select(ShownCount.Of)], isWhole: true) ? ShownCount.Withheld : ShownCount.Of(table.Sum());

    static IEnumerable<int[]> Tables(int columns, int most) =>
        columns == 0 ? [[]] : Tables(columns - 1, most).SelectMany(t => Enumerable.Range(0, most + 1).Select(c => (int[])[.. t, c]));
}
