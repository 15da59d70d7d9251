using System.CommandLine;
using EarHelp.Cli.Keeping;
using EarHelp.Cli.Teaching;
using EarHelp.Conversation.Keeping;
using EarHelp.Storage;
using EarHelp.Storage.Moving;

namespace EarHelp.Cli.Commands;

/// <summary><c>earhelp move --from STORE --to STORE</c>: carries everything that is kept to an empty store of the other kind, or of the same.</summary>
public static class MoveCommand
{
    const string Lesson = """
        STORE is a data folder, or how to reach a PostgreSQL database: "Host=...;Database=...;Username=..." (14 or later; a password
        belongs in a file that Passfile= names, not on the command line).
        Stop every service that uses one of the two first; the command refuses to begin while one runs.
        The target must be empty. All of it arrives, or nothing: what arrived is counted and hashed there and compared with what was sent
        before it is kept for good. A command that was cut off is called again. The source is only read, and stays as it is.
        A source with a damaged conversation, ledger or audit trail is refused.
        Not moved, because it belongs to the machine: the files beside the store in a data folder. The command says what to copy.
        Exit code 0 if all of it arrived, 1 if nothing did.

        Try:
          earhelp move --from /var/lib/earhelp --to "Host=db.clinic.example;Database=earhelp;Username=earhelp"
          earhelp move --from "Host=db.clinic.example;Database=earhelp;Username=earhelp" --to /var/lib/earhelp-new
        """;

    public static Command Make(Terminal terminal)
    {
        var (from, to) = (Store("--from", "The store that holds what is to be moved."), Store("--to", "The empty store that is to hold it."));
        var command = new TaughtCommand("move", "Carry everything that is kept to another store.", Lesson) { from, to };
        command.SetAction(async (parsed, cancellation) => await MoveAsync(parsed.GetRequiredValue(from), parsed.GetRequiredValue(to), terminal, cancellation).ConfigureAwait(false));
        return command;
    }

    static async Task<int> MoveAsync(string from, string to, Terminal terminal, CancellationToken cancellation)
    {
        if (!StoreOpening.IsDatabase(from) && !StoreOpening.IsThere(NamedStore.FolderOf(from, terminal)))
            throw new WrongUseException($"there is no store in the folder \"{NamedStore.FolderOf(from, terminal)}\". Name the data folder of a service with --from.");
        try
        {
            var source = NamedStore.Open(from, terminal);
            await using var _ = source.ConfigureAwait(false);
            var target = NamedStore.Open(to, terminal);
            await using var __ = target.ConfigureAwait(false);
            await CountedText.WriteAsync(await StoreMove.RunAsync(source, target, cancellation).ConfigureAwait(false), terminal).ConfigureAwait(false);
        }
        catch (StoreFailedException failed)
        {
            await terminal.Error.WriteLineAsync("earhelp: " + failed.Message).ConfigureAwait(false);
            return ExitCode.FaultsFound;
        }

        await terminal.Out.WriteLineAsync("All of it arrived: the counts and the hashes are the same on both sides. The source is as it was.").ConfigureAwait(false);
        await terminal.Error.WriteLineAsync(
            "Not moved: the other files of the data folder and the files that settings name, for example of --keys-certificate, without which "
            + "encrypted keys of staff open nothing. The emergency page and the socket are made anew.").ConfigureAwait(false);
        return ExitCode.Fine;
    }

    static Option<string> Store(string name, string description) => new(name) { Description = description, HelpName = "STORE", Required = true };
}
