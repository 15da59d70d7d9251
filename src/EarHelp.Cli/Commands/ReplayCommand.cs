using System.CommandLine;
using EarHelp.Cli.Keeping;
using EarHelp.Cli.Teaching;
using EarHelp.Clinic.Auditing;
using EarHelp.Conversation.Taking;

namespace EarHelp.Cli.Commands;

/// <summary><c>earhelp replay ID</c>: decides a kept conversation again, each turn under its own edition.</summary>
public static class ReplayCommand
{
    const string Lesson = """
        Prints every turn with its replies, and whether the same replies come out again. Exit code 1 if one differs.
        If a service has the data folder, it is asked over the socket there.

        Try:
          earhelp replay 6f1c0e... --data FOLDER
        """;

    public static Command Make(Terminal terminal, TimeProvider clock)
    {
        var root = SharedOptions.Root();
        var data = SharedOptions.Data();
        var id = new Argument<string>("ID") { Description = "The conversation's identifier." };
        var command = new TaughtCommand("replay", "Decide a kept conversation again and compare.", Lesson) { id, root, data };
        command.SetAction(async (parsed, cancellation) =>
        {
            var folder = KeptFolder.Find(parsed.GetValue(data), parsed.GetValue(root), terminal);
            var conversation = parsed.GetRequiredValue(id);
            using var service = RunningService.Find(folder);
            if (service is not null)
                return await ServiceAnswer.ReplayAsync(service, conversation, terminal, cancellation).ConfigureAwait(false);
            if (OpenedEdition.Open(parsed.GetValue(root), terminal) is not { } opened)
                return ExitCode.FaultsFound;
            var store = OpenedStore.Open(folder, terminal);
            await using (store.ConfigureAwait(false))
            {
                await store.AddToAuditAsync(clock, AuditDeed.ReadConversation, conversation, cancellation).ConfigureAwait(false);
                var turns = new TurnTaking(store.Turns, new EditionShelf(opened.Served, store.Editions), clock);
                var replayed = await turns.ReplayAsync(conversation, cancellation).ConfigureAwait(false);
                return replayed.Turns.IsEmpty
                    ? ServiceAnswer.NotThere(conversation, terminal)
                    : await ServiceAnswer.ReplayedAsync(replayed.ToJson(), terminal).ConfigureAwait(false);
            }
        });
        return command;
    }
}
