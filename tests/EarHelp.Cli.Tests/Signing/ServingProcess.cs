using System.Diagnostics;
using EarHelp.Cli.Tests.Deploying;

namespace EarHelp.Cli.Tests.Signing;

/// <summary><c>earhelp serve</c> as a process of its own.</summary>
sealed class ServingProcess : IAsyncDisposable
{
    readonly Process _process;
    readonly HttpClient _client;

    ServingProcess(Process process, string address) => (_process, _client) = (process, new HttpClient { BaseAddress = new Uri(address) });

    public static async Task<ServingProcess> StartAsync(string root, string data)
    {
        var process = Process.Start(Ran.Of(
            "dotnet", Path.Combine(AppContext.BaseDirectory, "earhelp.dll"), "serve", "--root", root, "--data", data, "--urls", "http://127.0.0.1:0", "--unfinished-days", "3650"))!;
        while (await process.StandardOutput.ReadLineAsync() is { } line)
        {
            if (line.Split(["at ", ";"], StringSplitOptions.None) is [_, var address, ..] && address.StartsWith("http://127.0.0.1:", StringComparison.Ordinal))
                return new ServingProcess(process, address);
        }

        throw new InvalidOperationException("The service ended without printing an address: " + await process.StandardError.ReadToEndAsync());
    }

    public Task<string> FirstPageAsync() => _client.GetStringAsync(new Uri("/", UriKind.Relative));

    public async ValueTask DisposeAsync()
    {
        await Ran.ToTheEndAsync("kill", "-TERM", $"{_process.Id}");
        await _process.WaitForExitAsync();
        _process.Dispose();
        _client.Dispose();
    }
}
