using EarHelp.Triage.Cells;
using EarHelp.Triage.Facts;

namespace EarHelp.Triage.Tests.Cells;

public sealed class FactCellsTests
{
    static readonly FactValues.Numbers Days = new(0, 36500, 1, "days");
    static readonly FactValues.Numbers Temperature = new(34, 43, 0.1m, "°C");
    static readonly FactValues.Named Onset = new(["none", "slow", "sudden"]);

    [Theory]
    [InlineData("[4..90]", "{4..90}")]
    [InlineData("(3..90]", "{4..90}")]
    [InlineData("< 4, > 90", "{0..3, 91..36500}")]
    [InlineData("not([4..90])", "{0..3, 91..36500}")]
    [InlineData("!= 4", "{0..3, 5..36500}")]
    [InlineData(">= 0", "{0..36500}")]
    [InlineData("<= 3", "{0..3}")]
    [InlineData("3, 4", "{3..4}")]
    [InlineData("< 3.5", "{0..3}")]
    [InlineData("> 3.5", "{4..36500}")]
    public void Numbers_become_exact_sets(string cell, string set) =>
        Assert.Equal(set, FactCells.Read(cell, Days).Values!.ToString());

    [Theory]
    [InlineData("> 37.5", "{36..90}")]
    [InlineData(">= 37.5", "{35..90}")]
    [InlineData("< 34.1", "{0}")]
    public void Steps_smaller_than_one_are_exact(string cell, string set) =>
        Assert.Equal(set, FactCells.Read(cell, Temperature).Values!.ToString());

    [Theory]
    [InlineData("sudden", "{2}")]
    [InlineData("not(none)", "{1..2}")]
    [InlineData("!= slow", "{0, 2}")]
    [InlineData("\"slow\", none", "{0..1}")]
    public void Names_become_sets(string cell, string set) =>
        Assert.Equal(set, FactCells.Read(cell, Onset).Values!.ToString());

    [Fact]
    public void True_is_yes()
    {
        var reading = FactCells.Read("true", new FactValues.Named(["yes", "no"]));

        Assert.Equal(0, reading.Values!.Only);
    }

    [Theory]
    [InlineData("> 36501", CellFaultKind.OutOfRange)]
    [InlineData("-1", CellFaultKind.OutOfRange)]
    [InlineData("3.5", CellFaultKind.OutOfRange)]
    [InlineData("> 36500", CellFaultKind.NeverTrue)]
    [InlineData("< 0", CellFaultKind.NeverTrue)]
    [InlineData("not(>= 0)", CellFaultKind.NeverTrue)]
    [InlineData("soon", CellFaultKind.UnknownValue)]
    [InlineData("\"3\"", CellFaultKind.UnknownValue)]
    [InlineData("date(\"2026-08-01\")", CellFaultKind.UnknownValue)]
    [InlineData("3 days", CellFaultKind.Unreadable)]
    public void Numbers_that_cannot_be_are_faults(string cell, CellFaultKind kind) =>
        Assert.Equal(kind, FactCells.Read(cell, Days).Fault!.Kind);

    [Fact]
    public void A_decimal_comma_is_not_taken_for_a_list()
    {
        var fault = FactCells.Read("> 37,5", Temperature).Fault!;

        Assert.Equal("Write 37.5 for one number, or a blank after the comma for two.", fault.Mend);
    }

    [Theory]
    [InlineData("< sudden")]
    [InlineData("[none..sudden]")]
    [InlineData("3")]
    [InlineData("suden")]
    [InlineData("not(none, slow, sudden)")]
    public void Names_that_cannot_be_are_faults(string cell) =>
        Assert.NotNull(FactCells.Read(cell, Onset).Fault);

    // Brute force: each value of a small domain, held against the cell one by one.
    [Fact]
    public void The_set_is_the_same_as_evaluating_every_value()
    {
        var chance = new Random(11);
        var domain = new FactValues.Numbers(-2, 4, 0.5m, "");
        for (var i = 0; i < 5_000; i++)
        {
            var cell = SomeCells.OfNumbers(chance, -2, 4);
            var test = CellParser.Parse(cell, CellScope.Of([])).Test;
            var expected = test is null ? null : ValueSet.OfMany(Enumerable.Range(0, domain.Count).Where(v => test.Evaluate(new FeelValue.Number(domain.ValueOf(v)))));

            var read = FactCells.Read(cell, domain);

            if (read.IsAnything || read.Fault is { Kind: not CellFaultKind.NeverTrue })
                continue;
            Assert.True(read.Values is null ? expected is null || expected.IsEmpty : read.Values.Equals(expected), $"{cell}: {read.Values} and not {expected}");
        }
    }
}
