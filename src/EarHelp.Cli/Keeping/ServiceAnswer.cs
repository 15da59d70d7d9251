using System.Text.Json;

namespace EarHelp.Cli.Keeping;

/// <summary>Asks a running service and tells what it answered.</summary>
static class ServiceAnswer
{
    public static async Task<int> EraseAsync(RunningService service, string conversation, Terminal terminal, CancellationToken cancellation)
    {
        if (await AskAsync(service, "erase", conversation, terminal, cancellation).ConfigureAwait(false) is null)
            return ExitCode.FaultsFound;
        await terminal.Out.WriteLineAsync(Erased(conversation)).ConfigureAwait(false);
        return ExitCode.Fine;
    }

    public static async Task<int> ReplayAsync(RunningService service, string conversation, Terminal terminal, CancellationToken cancellation) =>
        await AskAsync(service, "replay", conversation, terminal, cancellation).ConfigureAwait(false) is { } turns
            ? await ReplayedAsync(turns, terminal).ConfigureAwait(false)
            : ExitCode.FaultsFound;

    /// <summary>Tells a replay, whether it was made here or by the service.</summary>
    public static async Task<int> ReplayedAsync(JsonElement turns, Terminal terminal)
    {
        var (text, differing) = ReplayText.Of(turns);
        await terminal.Out.WriteLineAsync(text).ConfigureAwait(false);
        return differing == 0 ? ExitCode.Fine : ExitCode.FaultsFound;
    }

    public static string Erased(string conversation) => $"{conversation} is erased.";

    public static int NotThere(string conversation, Terminal terminal)
    {
        terminal.Error.WriteLine($"earhelp: there is no conversation \"{conversation}\".");
        return ExitCode.FaultsFound;
    }

    /// <returns>What the service answered, or null after its fault was told.</returns>
    static async Task<JsonElement?> AskAsync(
        RunningService service, string what, string conversation, Terminal terminal, CancellationToken cancellation)
    {
        var (status, text) = await service
            .AskAsync(HttpMethod.Post, $"control/{what}/{Uri.EscapeDataString(conversation)}", cancellation)
            .ConfigureAwait(false);
        if (status == 200)
            return JsonDocument.Parse(text).RootElement;
        if (status == 404)
            NotThere(conversation, terminal);
        else
            await terminal.Error.WriteLineAsync($"earhelp: the service answered {status}.").ConfigureAwait(false);
        return null;
    }
}
