using System.Collections.Immutable;
using EarHelp.Triage.Cells;
using EarHelp.Triage.Tables;

namespace EarHelp.Triage.Tests.Tables;

public sealed class DecisionTableTests
{
    [Fact]
    public void Unique_fails_if_two_rows_match()
    {
        var table = Table(HitPolicy.Unique, ("a", "< 5", [Text("low")]), ("b", "> 3", [Text("high")]));

        Assert.Equal("a", Assert.IsType<Decision.OneRow>(Decide(table, 1)).Rule);
        var failed = Assert.IsType<Decision.Failed>(Decide(table, 4));
        Assert.Equal(DecisionFault.NotUnique, failed.Kind);
        Assert.Equal("a b", string.Join(" ", failed.Matched));
    }

    [Fact]
    public void Any_wants_agreement_in_every_conclusion()
    {
        var agree = Table(HitPolicy.Any, ("a", "< 5", [Text("x"), Number(1)]), ("b", "> 3", [Text("x"), Number(1.0m)]));
        var disagree = Table(HitPolicy.Any, ("a", "< 5", [Text("x"), Number(1)]), ("b", "> 3", [Text("x"), Number(2)]));

        Assert.Equal("a", Assert.IsType<Decision.OneRow>(Decide(agree, 4)).Rule);
        Assert.Equal(DecisionFault.Disagreement, Assert.IsType<Decision.Failed>(Decide(disagree, 4)).Kind);
    }

    [Fact]
    public void Priority_takes_the_first_of_the_declared_order_and_then_the_first_row()
    {
        var table = Table(HitPolicy.Priority, ("a", "-", [Text("low")]), ("b", "> 3", [Text("high")]), ("c", "> 4", [Text("high")]));

        Assert.Equal("b", Assert.IsType<Decision.OneRow>(Decide(table, 5)).Rule);
        Assert.Equal("a", Assert.IsType<Decision.OneRow>(Decide(table, 1)).Rule);
    }

    [Fact]
    public void Output_order_sorts_and_rule_order_does_not()
    {
        (string, string, ImmutableArray<FeelValue>)[] rows = [("a", "-", [Text("low")]), ("b", "-", [Text("high")]), ("c", "-", [Text("low")])];

        Assert.Equal("b a c", string.Join(" ", Assert.IsType<Decision.Several>(Decide(Table(HitPolicy.OutputOrder, rows), 1)).Rules));
        Assert.Equal("a b c", string.Join(" ", Assert.IsType<Decision.Several>(Decide(Table(HitPolicy.RuleOrder, rows), 1)).Rules));
        Assert.Equal("a b c", string.Join(" ", Assert.IsType<Decision.Several>(Decide(Table(HitPolicy.Collect, rows), 1)).Rules));
    }

    [Theory]
    [InlineData("C+", 1, 6)]
    [InlineData("C<", 1, 1)]
    [InlineData("C>", 1, 3)]
    [InlineData("C#", 1, 3)]
    [InlineData("C#", -1, 0)]
    public void Collecting_adds_compares_and_counts(string letter, int input, int expected)
    {
        var table = Table(HitPolicy.Of(letter)!, ("a", "> 0", [Number(2)]), ("b", "> 0", [Number(1)]), ("c", "> 0", [Number(3)]));

        Assert.Equal(Number(expected), Assert.IsType<Decision.Aggregate>(Decide(table, input)).Value);
    }

    [Fact]
    public void Collecting_nothing_is_nothing_and_not_nought()
    {
        var table = Table(HitPolicy.Sum, ("a", "> 0", [Number(2)]));

        Assert.Equal(FeelValue.Nothing, Assert.IsType<Decision.Aggregate>(Decide(table, -1)).Value);
    }

    [Fact]
    public void Texts_cannot_be_added()
    {
        var table = Table(HitPolicy.Sum, ("a", "-", [Text("x")]));

        Assert.Equal(DecisionFault.NotComparable, Assert.IsType<Decision.Failed>(Decide(table, 1)).Kind);
    }

    [Fact]
    public void No_row_is_a_fault_and_never_a_silent_nothing()
    {
        var table = Table(HitPolicy.First, ("a", "> 3", [Text("x")]));

        Assert.Equal(DecisionFault.NoRow, Assert.IsType<Decision.Failed>(Decide(table, 1)).Kind);
    }

    [Fact]
    public void A_missing_input_meets_only_anything()
    {
        var table = Table(HitPolicy.First, ("a", "not(3)", [Text("x")]), ("b", "-", [Text("y")]));

        Assert.Equal("b", Assert.IsType<Decision.OneRow>(table.Decide(new Dictionary<string, FeelValue>())).Rule);
    }

    [Fact]
    public void A_text_is_a_day_where_the_column_speaks_of_days()
    {
        var table = Table(HitPolicy.First, ("a", "< date(\"2026-08-02\")", [Text("x")]));

        Assert.IsType<Decision.OneRow>(table.Decide(new Dictionary<string, FeelValue> { ["n"] = Text("2026-08-01") }));
    }

    static DecisionTable Table(HitPolicy policy, params (string Id, string Cell, ImmutableArray<FeelValue> Conclusions)[] rows) => new(
        "table",
        policy,
        ["n"],
        [.. rows[0].Conclusions.Select((_, i) => new OutputColumn($"out {i}", i == 0 && policy.NeedsOrder ? [Text("high"), Text("low")] : []))],
        [.. rows.Select(r => new TableRow(r.Id, [CellParser.Parse(r.Cell, CellScope.AnyName).Test!], r.Conclusions))]);

    static Decision Decide(DecisionTable table, int input) => table.Decide(new Dictionary<string, FeelValue> { ["n"] = Number(input) });

    static FeelValue.Text Text(string text) => new FeelValue.Text(text);

    static FeelValue.Number Number(decimal number) => new FeelValue.Number(number);
}
