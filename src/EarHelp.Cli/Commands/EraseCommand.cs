using System.CommandLine;
using EarHelp.Cli.Keeping;
using EarHelp.Cli.Teaching;
using EarHelp.Clinic.Auditing;

namespace EarHelp.Cli.Commands;

/// <summary><c>earhelp erase ID</c>: removes a conversation, so that no page of any file keeps its text.</summary>
public static class EraseCommand
{
    const string Lesson = """
        The live records are written to a new file and the old one is removed. Backups are not touched.
        That it was erased stays in the audit trail, with the identifier and nothing else.
        If a service has the data folder, it is asked over the socket there.

        Try:
          earhelp erase 6f1c0e... --data FOLDER
        """;

    public static Command Make(Terminal terminal, TimeProvider clock)
    {
        var root = SharedOptions.Root();
        var data = SharedOptions.Data();
        var id = new Argument<string>("ID") { Description = "The conversation's identifier." };
        var command = new TaughtCommand("erase", "Remove a conversation for good.", Lesson) { id, root, data };
        command.SetAction(async (parsed, cancellation) =>
        {
            var folder = KeptFolder.Find(parsed.GetValue(data), parsed.GetValue(root), terminal);
            var conversation = parsed.GetRequiredValue(id);
            using var service = RunningService.Find(folder);
            if (service is not null)
                return await ServiceAnswer.EraseAsync(service, conversation, terminal, cancellation).ConfigureAwait(false);
            var store = OpenedStore.Open(folder, terminal);
            await using (store.ConfigureAwait(false))
            {
                await store.AddToAuditAsync(clock, AuditDeed.Erased, conversation, cancellation).ConfigureAwait(false);
                if (!await store.Turns.EraseAsync(conversation, cancellation).ConfigureAwait(false))
                    return ServiceAnswer.NotThere(conversation, terminal);
            }

            await terminal.Out.WriteLineAsync(ServiceAnswer.Erased(conversation)).ConfigureAwait(false);
            return ExitCode.Fine;
        });
        return command;
    }
}
