using EarHelp.Cli.Tests.Commands;
using EarHelp.Cli.Tests.Deploying;
using EarHelp.Cli.Tests.Signing;

namespace EarHelp.Cli.Tests.Visiting;

public sealed class VisitTests : IDisposable
{
    readonly DirectoryInfo _data = Directory.CreateTempSubdirectory("earhelp");

    public void Dispose() => _data.Delete(recursive: true);

    [Fact]
    public async Task Records_a_visit_in_a_running_service_makes_another_link_and_says_what_is_wrong()
    {
        var alone = await VisitAsync("--list");
        Assert.Equal((2, "earhelp: no service has this data folder. Start one with earhelp serve.\n"), (alone.ExitCode, alone.Error));
        await using var service = await ServingProcess.StartAsync(Repository.Root, _data.FullName);
        var at = DateTimeOffset.UtcNow.AddDays(-1).ToString("yyyy-MM-dd'T'HH:mm", System.Globalization.CultureInfo.InvariantCulture);

        var list = await VisitAsync("--list");
        var saved = await VisitAsync("--at", at, "--by", "R. Adair", "--left", "suction, hole", "--person", "allergy to ear drops");
        var conversation = saved.Out.Split('\n')[0]["conversation ".Length..];
        var again = await VisitAsync("--again=" + conversation);
        var wrong = await VisitAsync("--at", at, "--by", "R. Adair", "--person", "suction");
        var nobody = await VisitAsync("--again", "nobody");
        var replayed = await Called.WithAsync("replay", "--data", _data.FullName, "--", conversation);

        Assert.Contains("Found\tear\thole\tHole in the eardrum\n", list.Out, StringComparison.Ordinal);
        Assert.Matches("^link /back/[\\w-]{43} ", saved.Out.Split('\n')[1]);
        Assert.NotEqual(saved.Out, again.Out);
        Assert.StartsWith($"conversation {conversation}\nlink /back/", again.Out, StringComparison.Ordinal);
        Assert.Equal(1, wrong.ExitCode);
        Assert.StartsWith("earhelp: a finding about an ear stands after --person", wrong.Error, StringComparison.Ordinal);
        Assert.Equal((1, "earhelp: no visit was recorded in a conversation \"nobody\".\n"), (nobody.ExitCode, nobody.Error));
        Assert.Contains("\"fact\":\"hole ever\",\"ear\":\"left\",\"value\":\"yes\"", replayed.Out, StringComparison.Ordinal);
        Assert.Equal(0, replayed.ExitCode);
    }

    Task<Called> VisitAsync(params string[] asked) => Called.WithAsync(["visit", .. asked, "--data", _data.FullName]);
}
