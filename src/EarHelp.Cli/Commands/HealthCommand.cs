using System.CommandLine;
using EarHelp.Cli.Keeping;
using EarHelp.Cli.Teaching;

namespace EarHelp.Cli.Commands;

/// <summary><c>earhelp health</c>: asks the running service of a data folder whether it is ready; for containers and watchers.</summary>
public static class HealthCommand
{
    const string Lesson = """
        Exit code 0 if the service of the data folder is ready, 1 if it is not or none is running.

        Try:
          earhelp health --data FOLDER
        """;

    public static Command Make(Terminal terminal)
    {
        var root = SharedOptions.Root();
        var data = SharedOptions.Data();
        var command = new TaughtCommand("health", "Ask the running service whether it is ready.", Lesson) { root, data };
        command.SetAction(async (parsed, cancellation) =>
        {
            using var service = RunningService.Find(KeptFolder.Find(parsed.GetValue(data), parsed.GetValue(root), terminal));
            if (service is null)
            {
                await terminal.Error.WriteLineAsync("earhelp: no service has this data folder.").ConfigureAwait(false);
                return ExitCode.FaultsFound;
            }

            var (status, text) = await service.AskAsync(HttpMethod.Get, "control/health", cancellation).ConfigureAwait(false);
            await terminal.Out.WriteLineAsync(text.TrimEnd()).ConfigureAwait(false);
            return status == 200 ? ExitCode.Fine : ExitCode.FaultsFound;
        });
        return command;
    }
}
