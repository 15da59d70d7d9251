using EarHelp.Cli.Tests.Commands;
using EarHelp.Cli.Tests.Deploying;

namespace EarHelp.Cli.Tests.Signing;

/// <summary>The command and the service as two processes, over the socket in the data folder.</summary>
public sealed class WithdrawTests : IDisposable
{
    const string Off = "We have taken these questions off.";

    readonly DirectoryInfo _data = Directory.CreateTempSubdirectory("earhelp");

    public void Dispose() => _data.Delete(recursive: true);

    [Fact]
    public async Task Triage_is_withdrawn_from_a_running_service_and_lifted_when_none_runs()
    {
        await using (var service = await ServingProcess.StartAsync(Repository.Root, _data.FullName))
        {
            Assert.DoesNotContain(Off, await service.FirstPageAsync(), StringComparison.Ordinal);

            Assert.Contains("All triage is withdrawn from now on.", (await CallAsync("--all")).Out, StringComparison.Ordinal);

            Assert.Contains(Off, await service.FirstPageAsync(), StringComparison.Ordinal);
            Assert.Contains("withdrawn already", (await CallAsync("--all")).Error, StringComparison.Ordinal);
            Assert.Contains("\"within a day\"", (await CallAsync("soonish")).Error, StringComparison.Ordinal);
            Assert.Contains("always told", (await CallAsync("now")).Error, StringComparison.Ordinal);
            Assert.Equal(2, (await CallAsync()).ExitCode);
            Assert.Equal(2, (await CallAsync("now", "--all")).ExitCode);
        }

        await using (var again = await ServingProcess.StartAsync(Repository.Root, _data.FullName))
            Assert.Contains(Off, await again.FirstPageAsync(), StringComparison.Ordinal);
        Assert.Equal(0, (await CallAsync("within a day")).ExitCode);
        Assert.Contains("from the next start", (await CallAsync("--lift", "--all")).Out, StringComparison.Ordinal);
        Assert.Equal(1, (await CallAsync("--lift", "within a day")).ExitCode);
        await using var last = await ServingProcess.StartAsync(Repository.Root, _data.FullName);
        Assert.DoesNotContain(Off, await last.FirstPageAsync(), StringComparison.Ordinal);
    }

    Task<Called> CallAsync(params string[] what) =>
        Called.WithAsync(["withdraw", .. what, "--data", _data.FullName, "--name", "Bo Reader", "--role", "ear surgeon", "--reason", "a complaint"]);
}
