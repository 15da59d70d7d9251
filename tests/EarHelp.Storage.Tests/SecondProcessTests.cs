using System.Diagnostics;
using System.Globalization;
using System.Text.RegularExpressions;
using EarHelp.Conversation.Keeping;

namespace EarHelp.Storage.Tests;

/// <summary>With a real second process: killed at every write, refused, and watched by the system's own trace.</summary>
public sealed partial class SecondProcessTests : IDisposable
{
    const int Turns = 30;

    readonly string _folder = Directory.CreateTempSubdirectory("earhelp").FullName;

    public void Dispose() => Directory.Delete(_folder, true);

    [Fact]
    public async Task Killed_at_any_write_of_a_run_no_acknowledged_turn_is_lost()
    {
        var run = RunKilledAsync(1);
        for (var k = 1; run is not null; k++)
        {
            var (exit, output, _) = await run;

            // The next process starts while what this one left behind is read.
            run = exit == 0 ? null : RunKilledAsync(k + 1);
            await using var store = LiteTurnStore.Open(FolderOf(k), new StoreOptions());
            var kept = await store.LoadAsync("a", default);

            var acknowledged = output.Count(c => c == '\n');
            Assert.InRange(kept.Length, acknowledged, acknowledged + 1);
            Assert.True(exit != 0 ? k < 1_000 : acknowledged == Turns && k > 2 * Turns, "the run did not end as it should");
        }
    }

    [Fact]
    public async Task A_second_process_on_the_same_folder_is_refused_with_the_name_of_the_file_and_the_first_process()
    {
        await using var store = LiteTurnStore.Open(_folder, new StoreOptions());

        var (exit, output, error) = await RunAsync(Host(), [HostFile, _folder, "1", "0"]);

        Assert.Equal(1, exit);
        Assert.Empty(output);
        Assert.Contains(Path.Combine(_folder, "earhelp.db"), error, StringComparison.Ordinal);
        Assert.Contains($"process {Environment.ProcessId}", error, StringComparison.Ordinal);
    }

    /// <remarks>Linux opens a file with O_SYNC for write-through: a write to it returns once it is on the device (open(2)).</remarks>
    [Fact]
    public async Task Every_acknowledgement_leaves_after_a_synced_write_of_the_log()
    {
        var trace = Path.Combine(_folder, "trace");
        var data = Path.Combine(_folder, "data");
        var (exit, _, error) = await RunAsync(
            "strace", ["-f", "-y", "-s", "16", "-e", "trace=openat,write,pwrite64,fsync,fdatasync", "-o", trace, Host(), HostFile, data, "20", "0"]);
        Assert.True(exit == 0, "strace did not run (Debian: apt-get install strace): " + error);

        var lines = await File.ReadAllLinesAsync(trace);
        var openings = lines.Where(l => l.Contains("earhelp-log.db", StringComparison.Ordinal) && l.Contains("openat", StringComparison.Ordinal)).ToArray();
        Assert.Contains(openings, l => l.Contains("O_SYNC", StringComparison.Ordinal) || l.Contains("O_DSYNC", StringComparison.Ordinal));
        var synced = 0;
        var acknowledged = 0;
        foreach (var line in lines)
        {
            if (LogWrite().IsMatch(line))
                synced++;
            if (!line.Contains("\"kept ", StringComparison.Ordinal))
                continue;
            acknowledged++;
            Assert.True(synced > 0, $"acknowledgement {acknowledged} left before its write was on the device");
            synced = 0;
        }

        Assert.Equal(20, acknowledged);
    }

    string FolderOf(int k) => Path.Combine(_folder, k.ToString(CultureInfo.InvariantCulture));

    Task<(int Exit, string Output, string Error)> RunKilledAsync(int k) => RunAsync(
        Host(), [HostFile, FolderOf(k), Turns.ToString(CultureInfo.InvariantCulture), k.ToString(CultureInfo.InvariantCulture)]);

    static string HostFile => Path.Combine(AppContext.BaseDirectory, "EarHelp.Storage.Tests.Host.dll");

    static string Host() => Environment.ProcessPath is { } path && Path.GetFileNameWithoutExtension(path) == "dotnet" ? path : "dotnet";

    static async Task<(int Exit, string Output, string Error)> RunAsync(string program, string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true, RedirectStandardError = true })!;
        var output = process.StandardOutput.ReadToEndAsync();
        var error = await process.StandardError.ReadToEndAsync();
        await process.WaitForExitAsync();
        return (process.ExitCode, await output, error);
    }

    [GeneratedRegex(@"(pwrite64|write)\(\d+<[^>]*earhelp-log\.db>")]
    private static partial Regex LogWrite();
}
