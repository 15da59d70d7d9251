using EarHelp.Content.Sources;
using EarHelp.Triage.Cells;
using EarHelp.Triage.Tables;

namespace EarHelp.Content.Tests.Editions;

/// <summary>One table of a file, by each hit policy of DMN.</summary>
public sealed class HitPolicyFileTests
{
    [Theory]
    [InlineData("U", "one 2")]
    [InlineData("A", "fault")]
    [InlineData("P", "one 1")]
    [InlineData("F", "one 2")]
    [InlineData("R", "all 2 1")]
    [InlineData("O", "all 1 2")]
    [InlineData("C", "all 2 1")]
    [InlineData("C+", "made 3")]
    [InlineData("C<", "made 1")]
    [InlineData("C>", "made 2")]
    [InlineData("C#", "made 2")]
    [InlineData("C\\<", "made 1")]
    public void Each_policy_has_its_answer(string letter, string expected)
    {
        var second = letter == "U" ? "< 0" : "-";
        var text = $"## Toll (policy {letter})\n\n| wheels | **toll** (3, 1, 2) |\n|---|---|\n| > 2 | 2 |\n| {second} | 1 |\n| > 90 | 3 |\n";

        var table = DecideFile.Read(SourceFile.Of("toll.md", text), []).Table!;

        var decision = table.Decide(new Dictionary<string, FeelValue> { ["wheels"] = new FeelValue.Number(4) });
        Assert.Equal(expected, decision switch
        {
            Decision.OneRow one => $"one {one.Values[0]}",
            Decision.Several all => $"all {string.Join(' ', all.Values.Select(v => v[0]))}",
            Decision.Aggregate made => $"made {made.Value}",
            _ => "fault",
        });
    }

    [Fact]
    public void A_column_named_level_takes_the_order_of_the_levels()
    {
        const string Text = "## Toll (policy P)\n\n| wheels | **level** | **because** |\n|---|---|---|\n| - | later | x |\n| > 2 | now | y |\n";

        var table = DecideFile.Read(SourceFile.Of("toll.md", Text), ["now", "later"]).Table!;

        var decision = Assert.IsType<Decision.OneRow>(table.Decide(new Dictionary<string, FeelValue> { ["wheels"] = new FeelValue.Number(4) }));
        Assert.Equal(new FeelValue.Text("now"), Assert.Single(decision.Values));
        Assert.Equal("2", decision.Rule);
    }

    [Fact]
    public void The_levels_of_the_file_itself_come_first()
    {
        const string Text = "| level | within |\n|---|---|\n| b | PT1H |\n| a | PT2H |\n\n## Toll (policy P)\n\n| wheels | **level** |\n|---|---|\n| - | a |\n| - | b |\n";

        var table = DecideFile.Read(SourceFile.Of("toll.md", Text), ["a", "b"]).Table!;

        Assert.Equal("2", Assert.IsType<Decision.OneRow>(table.Decide(new Dictionary<string, FeelValue>())).Rule);
    }

    [Theory]
    [InlineData("| wheels | **toll** | **gift** |\n|---|---|---|\n| > 2 | 2 | \"a, b\" |\n", "2 \"a, b\"")]
    [InlineData("| wheels | **toll** | **gift** |\n|---|---|---|\n| > 2 | true | date(\"2026-08-31\") |\n", "true date(\"2026-08-31\")")]
    [InlineData("| wheels | **toll** | **gift** |\n|---|---|---|\n| > 2 | - | a cup of tea |\n", "null \"a cup of tea\"")]
    public void Several_conclusions_come_together(string rows, string expected)
    {
        var table = DecideFile.Read(SourceFile.Of("toll.md", $"## Toll (policy F: the first row)\n\n{rows}"), []).Table!;

        var decision = Assert.IsType<Decision.OneRow>(table.Decide(new Dictionary<string, FeelValue> { ["wheels"] = new FeelValue.Number(4) }));
        Assert.Equal(expected, string.Join(' ', decision.Values));
    }
}
