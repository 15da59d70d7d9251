using System.Text.Json;
using System.Text.RegularExpressions;
using EarHelp.Cli.Tests.Commands;
using EarHelp.Cli.Tests.Deploying;

namespace EarHelp.Cli.Tests.Signing;

public sealed partial class AffectedTests : IDisposable
{
    readonly DirectoryInfo _data = Directory.CreateTempSubdirectory("earhelp");

    public void Dispose() => _data.Delete(recursive: true);

    [Fact]
    public async Task Names_the_conversations_that_were_told_something_by_a_rule_from_the_store_and_from_a_running_service()
    {
        var told = await TalkAsync("me\n34\nnear the clinic\n1\n:quit\n");
        await TalkAsync("me\n34\nnear the clinic\n:quit\n");
        var rule = RuleTold().Match((await Called.WithAsync("replay", told, "--data", _data.FullName)).Out).Groups[1].Value;

        var alone = await AffectedAsync(".", rule, "--json");
        var owner = await AffectedAsync(".", rule.Split('.')[0]);

        Assert.Equal((0, string.Empty), (alone.ExitCode, alone.Error));
        var json = JsonDocument.Parse(alone.Out).RootElement;
        var only = Assert.Single(json.GetProperty("told").EnumerateArray());
        Assert.Equal((told, "now", true, false), (only.GetProperty("conversation").GetString(), only.GetProperty("outcome").GetString(), only.GetProperty("decided").GetBoolean(), only.GetProperty("open").GetBoolean()));
        Assert.Equal("2026-11-20T09:30:00Z", only.GetProperty("at").GetString());
        Assert.Contains("1 kept conversations were told", owner.Out, StringComparison.Ordinal);
        await using var service = await ServingProcess.StartAsync(Repository.Root, _data.FullName);
        Assert.Equal(alone.Out, (await AffectedAsync(json.GetProperty("edition").GetString()!, rule, "--json")).Out);
        Assert.Contains("0 kept conversations", (await AffectedAsync(".", "RF-030")).Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_unknown_edition_or_rule_is_a_wrong_call()
    {
        await TalkAsync(":quit\n");

        var edition = await AffectedAsync("5c0e", "RF-030");
        var rule = await AffectedAsync(".", "RF-03O");

        Assert.Equal((2, 2), (edition.ExitCode, rule.ExitCode));
        Assert.Contains("\"5c0e\" is no folder here and no edition that is kept", edition.Error, StringComparison.Ordinal);
        Assert.Contains("has no rule or level \"RF-03O\". Did you mean \"RF-03", rule.Error, StringComparison.Ordinal);
    }

    async Task<string> TalkAsync(string said) =>
        (await Called.WithInputAsync(said, "talk", "--data", _data.FullName)).Error.Split('\n')[0].Split(' ')[1].Trim();

    Task<Called> AffectedAsync(params string[] asked) => Called.WithAsync(["affected", .. asked, "--data", _data.FullName]);

    [GeneratedRegex("\"rule\":\"([^\"]+)\"")]
    private static partial Regex RuleTold();
}
