using System.CommandLine;
using EarHelp.Cli.Keeping;
using EarHelp.Cli.Teaching;
using EarHelp.Clinic.Auditing;
using EarHelp.Conversation.Keeping;
using EarHelp.Storage.Backups;
using NodaTime;

namespace EarHelp.Cli.Commands;

/// <summary><c>earhelp restore FILE --to STORE</c>: brings back what a backup holds, without what was erased after it.</summary>
public static class RestoreCommand
{
    const string Lesson = """
        STORE is a data folder, or how to reach a PostgreSQL database: "Host=...;Database=...;Username=...". It must be empty, and no service may use it.
        --erased names the list erased.txt of the data folder, once for each node: whoever is on it, and whoever a visit joins to them, is left out and never
        written. If there is none because nobody was ever erased, say so with --none-erased; if it is lost, find out from the clinic who asked to be
        erased after the backup was made, and write their identifiers into a file, one a line.
        A damaged backup is refused before anything is written. All of it is restored, or nothing. That it was restored stands in the audit trail.
        Exit code 0; 1 if nothing was restored.

        Try:
          earhelp restore /backup/earhelp-2026-11-20.gz --to /var/lib/earhelp-new --erased /other-disk/erased.txt
        """;

    public static Command Make(Terminal terminal, TimeProvider clock)
    {
        var file = new Argument<string>("FILE") { Description = "The backup." };
        var to = new Option<string>("--to") { Description = "The empty store that is to hold it.", HelpName = "STORE", Required = true };
        var erased = new Option<string[]>("--erased") { Description = "A list of what was erased; more than once for several nodes.", HelpName = "LIST" };
        var none = new Option<bool>("--none-erased") { Description = "Nobody was erased since the backup was made." };
        var command = new TaughtCommand("restore", "Bring back what a backup holds.", Lesson) { file, to, erased, none };
        command.SetAction(async (parsed, cancellation) =>
        {
            var lists = parsed.GetValue(erased) ?? [];
            if (lists.Length > 0 == parsed.GetValue(none))
                throw new WrongUseException("name the list of what was erased with --erased LIST, or say --none-erased: nobody who was erased may come back.");
            return await RestoreAsync(
                Path.GetFullPath(parsed.GetRequiredValue(file), terminal.Folder), [.. lists.Select(l => Path.GetFullPath(l, terminal.Folder))], parsed.GetRequiredValue(to), terminal, clock, cancellation)
                .ConfigureAwait(false);
        });
        return command;
    }

    static async Task<int> RestoreAsync(string file, string[] lists, string to, Terminal terminal, TimeProvider clock, CancellationToken cancellation)
    {
        try
        {
            var erased = lists.SelectMany(l => ErasureList.Read(l)).ToHashSet(StringComparer.Ordinal);
            var store = NamedStore.Open(to, terminal);
            await using var _ = store.ConfigureAwait(false);
            var restored = await Restoring.RestoreAsync(file, erased, store, cancellation).ConfigureAwait(false);
            await store.Audit.AddAsync(new AuditEntry(Instant.FromDateTimeOffset(clock.GetUtcNow()), Actor.Terminal, AuditDeed.Restored, null), cancellation).ConfigureAwait(false);
            await CountedText.WriteAsync(restored.Parts, terminal).ConfigureAwait(false);
            await terminal.Out.WriteLineAsync($"The backup of {restored.Content.MadeAt} is restored; {restored.Erased.Length} conversations were left out because they were erased after it.").ConfigureAwait(false);
            foreach (var damage in restored.Content.Damages)
                await terminal.Error.WriteLineAsync($"earhelp: in the store, when the backup was made: {damage}").ConfigureAwait(false);
            return ExitCode.Fine;
        }
        catch (StoreFailedException failed)
        {
            await terminal.Error.WriteLineAsync("earhelp: " + failed.Message).ConfigureAwait(false);
            return ExitCode.FaultsFound;
        }
    }
}
