using System.Text.Json;

namespace EarHelp.Cli.Tests.Commands;

public sealed class CheckTests : IDisposable
{
    /// <summary>A row that names a high fever, and leaves out the highest.</summary>
    readonly CopiedEdition _broken = new CopiedEdition().With("dialogs/ear/5-rules-within-a-day.md", "| RF-047.2 | yes | - | - | >= 39.0 |", "| RF-047.2 | yes | - | - | [39.0..41.5] |");

    public void Dispose() => _broken.Dispose();

    [Fact]
    public async Task The_last_line_says_for_how_many_patients_the_properties_hold()
    {
        var called = await Called.WithAsync("check");

        Assert.Equal(0, called.ExitCode);
        Assert.Matches(@"\n7 properties hold for \d\.\d\d × 10\^\d+ possible patients \(\d+\.\d s\)\n$", called.Out);
    }

    [Fact]
    public async Task A_broken_property_is_a_line_with_its_place_its_example_and_what_would_mend_it()
    {
        var called = await Called.WithAsync("check", "--root", _broken.Root);

        Assert.Equal(1, called.ExitCode);
        Assert.Matches(
            """dialogs/ear/5-rules-within-a-day\.md:\d+:\d+: error monotone: "temperature" gets worse from 4\d\.\d to 41\.6, and the level falls from "within a day" to ".+"; afterwards: .+\. Example: .*Pain: yes.* \(.+ patients\)\. With .+:\d+.* Let the row that decides before also match 41\.6""",
            called.Error);
    }

    [Fact]
    public async Task As_json_a_finding_carries_answers_that_assess_to_what_it_tells()
    {
        var called = await Called.WithAsync("check", "--json", "--root", _broken.Root);

        var report = JsonDocument.Parse(called.Out).RootElement;
        var finding = report.GetProperty("findings").EnumerateArray().Single(f => f.GetProperty("breaks").GetString() == "monotone");
        var assessed = await Called.WithInputAsync(finding.GetProperty("answers").GetRawText().ReplaceLineEndings(" "), "assess", "--closed", "--root", _broken.Root);

        Assert.Equal((1, string.Empty), (called.ExitCode, called.Error));
        Assert.Matches(@"^\d{40,}$", report.GetProperty("patients").GetString());
        Assert.Matches(@"^\d{20,}$", finding.GetProperty("patients").GetString());
        Assert.Equal("within a day", JsonDocument.Parse(assessed.Out).RootElement.GetProperty("level").GetString());
    }

    /// <summary>Members that SARIF 2.1.0 (OASIS) requires: version, runs, tool.driver.name, result.message, and regions from line 1.</summary>
    [Fact]
    public async Task As_sarif_a_finding_names_its_rule_its_message_and_its_region()
    {
        var called = await Called.WithAsync("check", "--sarif", "--root", _broken.Root);

        var log = JsonDocument.Parse(called.Out).RootElement;
        var run = log.GetProperty("runs")[0];
        var result = run.GetProperty("results").EnumerateArray().Single(r => r.GetProperty("ruleId").GetString() == "monotone");
        var place = result.GetProperty("locations")[0].GetProperty("physicalLocation");

        Assert.Equal(("2.1.0", "earhelp"), (log.GetProperty("version").GetString(), run.GetProperty("tool").GetProperty("driver").GetProperty("name").GetString()));
        Assert.Equal(("error", "dialogs/ear/5-rules-within-a-day.md"), (result.GetProperty("level").GetString(), place.GetProperty("artifactLocation").GetProperty("uri").GetString()));
        Assert.True(place.GetProperty("region").GetProperty("startLine").GetInt32() > 1);
        Assert.Contains("Example: ", result.GetProperty("message").GetProperty("text").GetString(), StringComparison.Ordinal);
        Assert.NotEmpty(result.GetProperty("relatedLocations").EnumerateArray());
    }
}
