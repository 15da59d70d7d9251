using System.CommandLine;
using EarHelp.Cli.Keeping;
using EarHelp.Cli.Signing;
using EarHelp.Cli.Teaching;
using EarHelp.Conversation.Signing;

namespace EarHelp.Cli.Commands;

/// <summary><c>earhelp publish EDITION</c>: makes a signed edition live, also an earlier one.</summary>
public static class PublishCommand
{
    const string Lesson = """
        EDITION is the identifier of a kept edition, or a folder that holds the same files. Only what is signed by two people at this
        moment is published. A running service serves it to every conversation that begins from then on; conversations keep the edition they
        began with. From the first publishing on, changed files are not served by themselves any more.

        Try:
          earhelp publish . --name "A. Writer" --role audiologist --reason "yearly review"
          earhelp publish 5c0e... --name "A. Writer" --role audiologist --reason "back to the edition of March"
        """;

    public static Command Make(Terminal terminal, TimeProvider clock)
    {
        var edition = new Argument<string>("EDITION") { Description = "The identifier of a kept edition, or a folder." };
        var (name, role, reason) = (SigningOptions.Name(), SigningOptions.Role(), SigningOptions.Reason());
        var (root, data) = (SharedOptions.Root(), SharedOptions.Data());
        var command = new TaughtCommand("publish", "Make a signed edition live.", Lesson) { edition, name, role, reason, root, data };
        command.SetAction(async (parsed, cancellation) =>
        {
            var kept = KeptEditions.Open(KeptFolder.Find(parsed.GetValue(data), parsed.GetValue(root), terminal), terminal);
            await using (kept.ConfigureAwait(false))
            {
                if (await kept.OpenAsync(parsed.GetRequiredValue(edition), cancellation).ConfigureAwait(false) is not { } opened)
                    return ExitCode.FaultsFound;
                var ledger = await kept.LedgerAsync(cancellation).ConfigureAwait(false);
                var now = clock.GetUtcNow().ToUnixTimeMilliseconds();
                if (ledger.SignedUntil(opened.Id) is not { } until || until <= now)
                {
                    await terminal.Error.WriteLineAsync($"earhelp: not published: edition {opened.Id} is not signed by two people at this moment; see \"earhelp sign --help\".").ConfigureAwait(false);
                    return ExitCode.FaultsFound;
                }

                var deed = new Deed(
                    DeedKind.Published, opened.Id, now, parsed.GetRequiredValue(name), parsed.GetRequiredValue(role), parsed.GetRequiredValue(reason), null, null);
                await kept.AddAsync(ledger, deed, cancellation).ConfigureAwait(false);
                await terminal.Out.WriteLineAsync($"Edition {opened.Id} is {(kept.IsRunning ? "served from now on." : "served when the service starts.")}").ConfigureAwait(false);
                return ExitCode.Fine;
            }
        });
        return command;
    }
}
