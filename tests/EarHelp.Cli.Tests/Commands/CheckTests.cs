using System.Text.Json;
using EarHelp.Cli.Tests.Deploying;

namespace EarHelp.Cli.Tests.Commands;

public sealed class CheckTests : IDisposable
{
    readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("earhelp");

    public void Dispose() => _folder.Delete(recursive: true);

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
        var called = await Called.WithAsync("check", "--root", await BrokenAsync());

        Assert.Equal(1, called.ExitCode);
        Assert.Contains(
            "rules.md:13:3: error monotone: \"swelling\" gets worse from slight to large, and the level falls from \"within a day\" to \"within three days\"",
            called.Error,
            StringComparison.Ordinal);
        Assert.Contains("Example: bleeding: oozing, hours since the nip: 24 hours, swelling: slight, everything else no (6,606,600 patients).", called.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task As_json_a_finding_carries_answers_that_assess_to_what_it_tells()
    {
        var root = await BrokenAsync();
        var called = await Called.WithAsync("check", "--json", "--root", root);

        var report = JsonDocument.Parse(called.Out).RootElement;
        var finding = report.GetProperty("findings").EnumerateArray().Single(f => f.GetProperty("breaks").GetString() == "monotone");
        var assessed = await Called.WithInputAsync(finding.GetProperty("answers").GetRawText().ReplaceLineEndings(" "), "assess", "--closed", "--root", root);

        Assert.Equal((1, string.Empty), (called.ExitCode, called.Error));
        Assert.Equal(("4574938368", "6606600"), (report.GetProperty("patients").GetString(), finding.GetProperty("patients").GetString()));
        Assert.Equal("within a day", JsonDocument.Parse(assessed.Out).RootElement.GetProperty("level").GetString());
    }

    /// <summary>Members that SARIF 2.1.0 (OASIS) requires: version, runs, tool.driver.name, result.message, and regions from line 1.</summary>
    [Fact]
    public async Task As_sarif_a_finding_names_its_rule_its_message_and_its_region()
    {
        var called = await Called.WithAsync("check", "--sarif", "--root", await BrokenAsync());

        var log = JsonDocument.Parse(called.Out).RootElement;
        var run = log.GetProperty("runs")[0];
        var result = run.GetProperty("results").EnumerateArray().Single(r => r.GetProperty("ruleId").GetString() == "monotone");
        var place = result.GetProperty("locations")[0].GetProperty("physicalLocation");

        Assert.Equal(("2.1.0", "earhelp"), (log.GetProperty("version").GetString(), run.GetProperty("tool").GetProperty("driver").GetProperty("name").GetString()));
        Assert.Equal(("error", "dialogs/nip/rules.md", 13), (result.GetProperty("level").GetString(), place.GetProperty("artifactLocation").GetProperty("uri").GetString(), place.GetProperty("region").GetProperty("startLine").GetInt32()));
        Assert.Contains("Example: ", result.GetProperty("message").GetProperty("text").GetString(), StringComparison.Ordinal);
        Assert.NotEmpty(result.GetProperty("relatedLocations").EnumerateArray());
    }

    /// <summary>The small edition with a row that names only the milder swelling.</summary>
    async Task<string> BrokenAsync()
    {
        var from = Path.Combine(Repository.Root, "tests", "EarHelp.Content.Tests", "SmallEdition");
        foreach (var file in Directory.EnumerateFiles(from, "*", SearchOption.AllDirectories))
        {
            var copy = Path.Combine(_folder.FullName, Path.GetRelativePath(from, file));
            Directory.CreateDirectory(Path.GetDirectoryName(copy)!);
            File.Copy(file, copy);
        }

        var rules = Path.Combine(_folder.FullName, "dialogs", "nip", "rules.md");
        await File.WriteAllTextAsync(rules, (await File.ReadAllTextAsync(rules)).Replace("| N3.2 | - | - | - | large |", "| N3.2 | - | - | - | slight |", StringComparison.Ordinal));
        return _folder.FullName;
    }
}
