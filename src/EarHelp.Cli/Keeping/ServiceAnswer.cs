namespace EarHelp.Cli.Keeping;

/// <summary>Tells what a running service answered.</summary>
static class ServiceAnswer
{
    public static async Task<int> TellAsync(
        RunningService service, HttpMethod method, string what, string conversation, Terminal terminal, CancellationToken cancellation)
    {
        var (status, text) = await service.AskAsync(method, $"control/{what}/{Uri.EscapeDataString(conversation)}", cancellation).ConfigureAwait(false);
        if (status == 404)
            return NotThere(conversation, terminal);
        var isFine = status == 200;
        await (isFine ? terminal.Out : terminal.Error).WriteLineAsync(text.TrimEnd()).ConfigureAwait(false);
        return isFine ? ExitCode.Fine : ExitCode.FaultsFound;
    }

    public static int NotThere(string conversation, Terminal terminal)
    {
        terminal.Error.WriteLine($"earhelp: there is no conversation \"{conversation}\".");
        return ExitCode.FaultsFound;
    }
}
