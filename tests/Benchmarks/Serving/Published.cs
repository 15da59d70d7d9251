using System.Diagnostics;
using Benchmarks.Figures;

namespace Benchmarks.Serving;

/// <summary>The service as deploy/README.md says to publish it.</summary>
static class Published
{
    /// <returns>The program.</returns>
    public static async Task<string> MakeAsync()
    {
        var folder = Path.Combine(Places.Root, "artifacts", "earhelp");
        string[] arguments =
        [
            "publish", Path.Combine(Places.Root, "src", "EarHelp.Cli"), "-c", "Release", "-r", "linux-x64", "--self-contained", "-p:PublishReadyToRun=true",
            "-o", folder, "--nologo", "-v", "quiet",
        ];
        using var publish = Process.Start("dotnet", arguments);
        await publish.WaitForExitAsync();
        return publish.ExitCode == 0 ? Path.Combine(folder, "earhelp") : throw new InvalidOperationException("The service could not be published.");
    }
}
