using System.CommandLine;
using System.Text;
using EarHelp.Cli.Keeping;
using EarHelp.Cli.Teaching;
using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Records;
using NodaTime.Text;

namespace EarHelp.Cli.Commands;

/// <summary><c>earhelp audit</c>: who read and changed which record, and whether the trail is whole.</summary>
public static class AuditCommand
{
    const string Lesson = """
        A line an entry: when, who, what kind of thing, whose conversation, which account. Who is the identifier of an account, "terminal"
        for a command like this one, or "service" for the clock. No entry holds a word of a patient.
        Each entry is chained by its hash to the one before. If one was changed, or is missing, the entries before it are printed and the
        exit code is 1.
        Reading the trail is itself an entry of it. If a service has the data folder, it is asked over the socket there.

        Try:
          earhelp audit --data FOLDER
          earhelp audit --conversation 6f1c0e...
          earhelp audit --json | jq '.entries | group_by(.who) | map({who: .[0].who, entries: length})'
        """;

    public static Command Make(Terminal terminal, TimeProvider clock)
    {
        var json = new Option<bool>("--json") { Description = "Write JSON for programs." };
        var one = new Option<string>("--conversation") { Description = "Only what was done with this conversation." };
        var (root, data) = (SharedOptions.Root(), SharedOptions.Data());
        var command = new TaughtCommand("audit", "List who read and changed which record.", Lesson) { one, json, root, data };
        command.SetAction(async (parsed, cancellation) =>
        {
            var read = await ReadAsync(KeptFolder.Find(parsed.GetValue(data), parsed.GetValue(root), terminal), terminal, clock, cancellation).ConfigureAwait(false);
            if (parsed.GetValue(one) is { } conversation)
                read = read with { Entries = [.. read.Entries.Where(e => e.Conversation == conversation)] };
            await terminal.Out.WriteAsync(parsed.GetValue(json) ? Encoding.UTF8.GetString(AuditJson.Write(read)) + "\n" : Text(read)).ConfigureAwait(false);
            if (read.FirstDamaged is not { } damaged)
                return ExitCode.Fine;
            await terminal.Error.WriteLineAsync($"earhelp: entry {damaged} of the audit trail was changed after it was made, or the one before it is missing. Restore the last verified backup.").ConfigureAwait(false);
            return ExitCode.FaultsFound;
        });
        return command;
    }

    static async Task<AuditRead> ReadAsync(string folder, Terminal terminal, TimeProvider clock, CancellationToken cancellation)
    {
        using var service = RunningService.Find(folder);
        if (service is not null)
            return AuditJson.ReadTrail((await service.SendAsync(HttpMethod.Get, "control/audit", null, cancellation).ConfigureAwait(false)).Bytes);
        var store = OpenedStore.Open(folder, terminal);
        await using (store.ConfigureAwait(false))
        {
            await store.AddToAuditAsync(clock, AuditDeed.ReadAudit, null, cancellation).ConfigureAwait(false);
            return await store.Audit.ReadAsync(cancellation).ConfigureAwait(false);
        }
    }

    static string Text(AuditRead read)
    {
        var text = new StringBuilder();
        foreach (var entry in read.Entries)
        {
            var about = string.Join("  ", ((string?[])[entry.Conversation, entry.Account]).Where(a => a is not null));
            text.Append(InstantPattern.ExtendedIso.Format(entry.At)).Append("  ").Append(entry.Who).Append("  ").Append(entry.Deed);
            text.Append(about.Length > 0 ? "  " : string.Empty).Append(about).Append('\n');
        }

        return text.ToString();
    }
}
