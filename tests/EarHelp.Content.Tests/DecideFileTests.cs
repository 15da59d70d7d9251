using System.Text;
using EarHelp.Content.Sources;
using EarHelp.Triage.Cells;
using EarHelp.Triage.Tables;

namespace EarHelp.Content.Tests;

public sealed class DecideFileTests
{
    const string Bitten = """
        ## How urgent (policy P: the most urgent row decides)

        | rule | bleeding | hours since | **level** (now, soon, later) | **because** |
        |---|---|---|---|---|
        | B1 | pumping | - | now | blood |
        | B2 | oozing | > 24 | soon | late |
        | B9 | - | - | later | otherwise |
        """;

    [Theory]
    [InlineData("pumping", 1, "now")]
    [InlineData("oozing", 25, "soon")]
    [InlineData("oozing", 24, "later")]
    [InlineData("none", 99, "later")]
    public void Decides_any_table_by_its_policy(string bleeding, int hours, string level)
    {
        var read = DecideFile.Read(new SourceFile("bitten.md", Encoding.UTF8.GetBytes(Bitten)), [], null);

        var decision = read.Table!.Decide(new Dictionary<string, FeelValue>
        {
            ["bleeding"] = new FeelValue.Text(bleeding),
            ["hours since"] = new FeelValue.Number(hours),
        });

        Assert.Equal([new FeelValue.Text(level)], Assert.IsType<Decision.OneRow>(decision).Values.AsEnumerable());
    }

    [Fact]
    public void Says_what_is_wrong_with_a_table_that_states_no_policy()
    {
        var text = Bitten.Replace("(policy P: the most urgent row decides)", string.Empty, StringComparison.Ordinal);

        var read = DecideFile.Read(new SourceFile("bitten.md", Encoding.UTF8.GetBytes(text)), [], null);

        Assert.Null(read.Table);
        Assert.Equal("EH0060", Assert.Single(read.Problems).Code);
    }
}
