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
        began with. From the first publishing on, changed files are not served by themselves any more; --files goes back to that: the
        service serves the files beside it again, as a demonstration unless that very edition is signed.

        Try:
          earhelp publish . --name "A. Writer" --role audiologist --reason "yearly review"
          earhelp publish 5c0e... --name "A. Writer" --role audiologist --reason "back to the edition of March"
          earhelp publish --files --name "A. Writer" --role audiologist --reason "we go on with drafts"
        """;

    public static Command Make(Terminal terminal, TimeProvider clock)
    {
        var edition = new Argument<string?>("EDITION") { Description = "The identifier of a kept edition, or a folder.", Arity = ArgumentArity.ZeroOrOne };
        var files = new Option<bool>("--files") { Description = "Instead of an edition: follow the files beside the service again." };
        var (name, role, reason) = (SigningOptions.Name(), SigningOptions.Role(), SigningOptions.Reason());
        var (root, data) = (SharedOptions.Root(), SharedOptions.Data());
        var command = new TaughtCommand("publish", "Make a signed edition live.", Lesson) { edition, files, name, role, reason, root, data };
        command.SetAction(async (parsed, cancellation) =>
        {
            if (parsed.GetValue(files) == parsed.GetValue(edition) is not null)
                throw new WrongUseException("name one edition, or --files.");
            var kept = KeptEditions.Open(KeptFolder.Find(parsed.GetValue(data), parsed.GetValue(root), terminal), terminal);
            await using (kept.ConfigureAwait(false))
            {
                var ledger = await kept.LedgerAsync(cancellation).ConfigureAwait(false);
                var now = clock.GetUtcNow().ToUnixTimeMilliseconds();
                var deed = new Deed(DeedKind.FilesFollowed, ledger.Published ?? string.Empty, now, parsed.GetRequiredValue(name), parsed.GetRequiredValue(role), parsed.GetRequiredValue(reason));
                if (parsed.GetValue(edition) is { } named)
                {
                    if (await kept.OpenAsync(named, cancellation).ConfigureAwait(false) is not { } opened)
                        return ExitCode.FaultsFound;
                    deed = deed with { Kind = DeedKind.Published, Edition = opened.Id };
                }

                if ((FaultOf(deed, ledger) ?? await kept.AddAsync(ledger, deed, cancellation).ConfigureAwait(false)) is { } fault)
                {
                    await terminal.Error.WriteLineAsync($"earhelp: not published: {fault}").ConfigureAwait(false);
                    return ExitCode.FaultsFound;
                }

                var when = kept.IsRunning ? "from now on." : "when the service starts.";
                await terminal.Out.WriteLineAsync(deed.Kind == DeedKind.Published ? $"Edition {deed.Edition} is served {when}" : $"The files are followed {when}").ConfigureAwait(false);
                return ExitCode.Fine;
            }
        });
        return command;
    }

    static string? FaultOf(Deed deed, Ledger ledger) => deed switch
    {
        { Kind: DeedKind.Published } when !(ledger.SignedUntil(deed.Edition) > deed.AtUnixMilliseconds) =>
            $"edition {deed.Edition} is not signed by two people at this moment; see \"earhelp sign --help\".",
        { Kind: DeedKind.FilesFollowed } when ledger.Published is null => "no edition is published, so the files are followed already.",
        _ => null,
    };
}
