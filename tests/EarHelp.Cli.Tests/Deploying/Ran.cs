using System.Diagnostics;

namespace EarHelp.Cli.Tests.Deploying;

/// <summary>A program that ran to its end.</summary>
sealed record Ran(int ExitCode, string Out, string Error)
{
    public static async Task<Ran> ToTheEndAsync(string program, params string[] arguments)
    {
        using var process = Process.Start(Of(program, arguments))!;
        process.StandardInput.Close();
        var output = process.StandardOutput.ReadToEndAsync();
        var error = process.StandardError.ReadToEndAsync();
        await process.WaitForExitAsync();
        return new Ran(process.ExitCode, await output, await error);
    }

    public static ProcessStartInfo Of(string program, params string[] arguments) => new(program, arguments)
    {
        RedirectStandardInput = true,
        RedirectStandardOutput = true,
        RedirectStandardError = true,
        WorkingDirectory = Repository.Root,
    };
}
