using System.Diagnostics;
using System.Text.RegularExpressions;

namespace EarHelp.Cli.Tests.Deploying;

/// <summary>The published folder, started as a user who owns nothing but the data folder.</summary>
public sealed partial class PublishedFolderTests : IAsyncLifetime
{
    readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("earhelp");

    string Published => Path.Combine(_folder.FullName, "published");

    string Data => Path.Combine(_folder.FullName, "data");

    public async Task InitializeAsync()
    {
        var published = await Ran.ToTheEndAsync(
            "dotnet", "publish", Path.Combine(Repository.Root, "src", "EarHelp.Cli"), "-c", "Release", "-o", Published, "--nologo", "-v", "q");
        Assert.True(published.ExitCode == 0, published.Out + published.Error);
        Directory.CreateDirectory(Data);
        await Ran.ToTheEndAsync("chmod", "0755", _folder.FullName);
        await Ran.ToTheEndAsync("chown", "nobody", Data);
        await Ran.ToTheEndAsync("chmod", "0700", Data);
    }

    public Task DisposeAsync()
    {
        _folder.Delete(recursive: true);
        return Task.CompletedTask;
    }

    [Fact]
    public async Task Serves_the_page_and_answers_the_command_while_it_runs()
    {
        Assert.True(Directory.Exists(Path.Combine(Published, "dialogs")) && Directory.Exists(Path.Combine(Published, "content")));
        using var service = Process.Start(AsNobody("serve", "--data", Data, "--urls", "http://127.0.0.1:0"))!;
        var address = await AddressAsync(service.StandardOutput);
        using var client = new HttpClient();

        var page = await client.GetStringAsync(new Uri(address));
        var health = await Ran.ToTheEndAsync(Path.Combine(Published, "earhelp"), "health", "--data", Data);
        await Ran.ToTheEndAsync("kill", "-TERM", $"{service.Id}");
        await service.WaitForExitAsync();

        Assert.Contains("<html", page, StringComparison.Ordinal);
        Assert.Equal((0, string.Empty), (health.ExitCode, health.Error));
        Assert.Equal(0, service.ExitCode);
    }

    ProcessStartInfo AsNobody(params string[] arguments) =>
        Ran.Of("setpriv", ["--reuid", "nobody", "--regid", "nogroup", "--clear-groups", Path.Combine(Published, "earhelp"), .. arguments]);

    static async Task<string> AddressAsync(StreamReader output)
    {
        while (await output.ReadLineAsync() is { } line)
        {
            if (Address().Match(line) is { Success: true } found)
                return found.Value;
        }

        throw new InvalidOperationException("The service ended without printing an address.");
    }

    [GeneratedRegex(@"http://127\.0\.0\.1:\d+")]
    private static partial Regex Address();
}
