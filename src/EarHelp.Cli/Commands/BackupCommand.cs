using System.CommandLine;
using EarHelp.Cli.Keeping;
using EarHelp.Cli.Teaching;
using EarHelp.Clinic.Auditing;
using EarHelp.Conversation.Keeping;
using EarHelp.Storage.Backups;

namespace EarHelp.Cli.Commands;

/// <summary><c>earhelp backup --to FILE</c> writes everything that is kept to a file; <c>--verify FILE</c> restores one as a drill.</summary>
public static class BackupCommand
{
    const string Lesson = """
        A service that has the data folder is asked over the socket there and goes on taking turns meanwhile. Without one the store is opened here:
        that of the data folder, or the database that EARHELP_STORE names.
        The file holds everything of every patient, and is readable by you only: encrypt it before it leaves the machine, and delete it
        when its time is over. Keep the list erased.txt of the data folder (of every node) apart from the store and newer than the backup: a restore
        needs it, so that nobody who was erased comes back.
        --verify restores the file into a folder of its own, compares counts, hashes and chains, reads every conversation, and removes that
        folder again. It needs as much room in the folder for temporary files as the store takes.
        Exit code 0; 1 if the file could not be written or is damaged, or if something was damaged in the store already (it is named, and the
        backup holds the rest).

        Try:
          earhelp backup --to /backup/earhelp-2026-11-20.gz --data /var/lib/earhelp
          earhelp backup --verify /backup/earhelp-2026-11-20.gz
        """;

    public static Command Make(Terminal terminal, TimeProvider clock)
    {
        var to = new Option<string?>("--to") { Description = "The file to write; it must not be there yet.", HelpName = "FILE" };
        var verify = new Option<string?>("--verify") { Description = "A backup to restore as a drill.", HelpName = "FILE" };
        var (root, data) = (SharedOptions.Root(), SharedOptions.Data());
        var command = new TaughtCommand("backup", "Write everything that is kept to a file, or try such a file out.", Lesson) { to, verify, root, data };
        command.SetAction(async (parsed, cancellation) =>
        {
            try
            {
                return (parsed.GetValue(to), parsed.GetValue(verify)) switch
                {
                    (null, { } file) => await VerifyAsync(Path.GetFullPath(file, terminal.Folder), terminal, cancellation).ConfigureAwait(false),
                    ({ } file, null) => await WriteAsync(
                        KeptFolder.Find(parsed.GetValue(data), parsed.GetValue(root), terminal), Path.GetFullPath(file, terminal.Folder), terminal, clock, cancellation).ConfigureAwait(false),
                    _ => throw new WrongUseException("name either --to FILE or --verify FILE."),
                };
            }
            catch (StoreFailedException failed)
            {
                await terminal.Error.WriteLineAsync("earhelp: " + failed.Message).ConfigureAwait(false);
                return ExitCode.FaultsFound;
            }
        });
        return command;
    }

    static async Task<int> WriteAsync(string folder, string file, Terminal terminal, TimeProvider clock, CancellationToken cancellation)
    {
        if (File.Exists(file))
            throw new WrongUseException($"the file \"{file}\" is there already. Name another one: no backup is written over.");
        var part = file + ".part";
        try
        {
            var to = new FileStream(part, OwnersOnly());
            await using (to.ConfigureAwait(false))
            {
                await WriteAsync(folder, to, terminal, clock, cancellation).ConfigureAwait(false);
                to.Flush(flushToDisk: true);
            }

            // What was written is read back before it counts.
            var content = await Restoring.CheckAsync(part, cancellation).ConfigureAwait(false);
            File.Move(part, file);
            await CountedText.WriteAsync(content.Parts, terminal).ConfigureAwait(false);
            await terminal.Out.WriteLineAsync($"{file} is written.").ConfigureAwait(false);
            return await TellDamagesAsync(content, terminal).ConfigureAwait(false);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException or HttpRequestException)
        {
            throw new StoreFailedException($"The backup could not be written: {fault.Message}", fault);
        }
        finally
        {
            File.Delete(part);
        }
    }

    static async Task WriteAsync(string folder, Stream to, Terminal terminal, TimeProvider clock, CancellationToken cancellation)
    {
        using var service = RunningService.Find(folder);
        if (service is not null)
        {
            await service.CopyAsync("control/backup", to, cancellation).ConfigureAwait(false);
            return;
        }

        var store = OpenedStore.Open(folder, terminal);
        await using (store.ConfigureAwait(false))
        {
            await store.AddToAuditAsync(clock, AuditDeed.BackedUp, null, cancellation).ConfigureAwait(false);
            await BackupWriter.WriteAsync(store.Whole, to, clock.GetUtcNow(), cancellation).ConfigureAwait(false);
        }
    }

    static async Task<int> VerifyAsync(string file, Terminal terminal, CancellationToken cancellation)
    {
        var restored = await Restoring.VerifyAsync(file, cancellation).ConfigureAwait(false);
        await CountedText.WriteAsync(restored.Parts, terminal).ConfigureAwait(false);
        await terminal.Out.WriteLineAsync($"The backup of {restored.Content.MadeAt} was restored and read: counts, hashes and chains are those that were written.").ConfigureAwait(false);
        return await TellDamagesAsync(restored.Content, terminal).ConfigureAwait(false);
    }

    static async Task<int> TellDamagesAsync(BackupContent content, Terminal terminal)
    {
        foreach (var damage in content.Damages)
            await terminal.Error.WriteLineAsync($"earhelp: in the store, when the backup was made: {damage}").ConfigureAwait(false);
        return content.Damages.IsEmpty ? ExitCode.Fine : ExitCode.FaultsFound;
    }

    static FileStreamOptions OwnersOnly()
    {
        var options = new FileStreamOptions { Mode = FileMode.Create, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
            options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        return options;
    }
}
