using System.Diagnostics;
using System.Globalization;

namespace EarHelp.Servers.Host;

/// <summary>
/// A full disk for one process: a limit on the length of its files, beyond which a write fails (setrlimit(2), RLIMIT_FSIZE). PostgreSQL ignores
/// the signal that comes with it "so that ulimit violations work like disk full" (its postmaster.c).
/// </summary>
public static class DiskLimit
{
    /// <summary>No file of the process takes a byte more, until it ends. A process that is gone already is as good.</summary>
    public static Task FillAsync(int processId) => FillAsync(processId, (program, arguments) => new ProcessStartInfo(program, arguments));

    /// <param name="command">Makes a command of the user whose process it is: nobody else may set its limits.</param>
    internal static async Task FillAsync(int processId, Func<string, string[], ProcessStartInfo> command)
    {
        var start = command("prlimit", ["--pid", processId.ToString(CultureInfo.InvariantCulture), "--fsize=1:"]);
        start.RedirectStandardError = true;
        using var limited = Process.Start(start)!;
        var said = await limited.StandardError.ReadToEndAsync();
        await limited.WaitForExitAsync();
        if (limited.ExitCode != 0 && Directory.Exists(string.Create(CultureInfo.InvariantCulture, $"/proc/{processId}")))
            throw new InvalidOperationException("No limit could be set: " + said);
    }
}
