using System.CommandLine;
using EarHelp.Cli.Keeping;
using EarHelp.Cli.Recalling;
using EarHelp.Cli.Teaching;
using EarHelp.Triage.Cells;
using EarHelp.Triage.Editions;

namespace EarHelp.Cli.Commands;

/// <summary><c>earhelp affected EDITION RULE</c>: which kept conversations were told something by a rule, for a recall.</summary>
public static class AffectedCommand
{
    const string Lesson = """
        EDITION is the identifier of a kept edition, or a folder that holds the same files. RULE is the name of a row (RF-030.2), or of the
        rule that owns several (RF-030), or a level ("within hours"): then whatever decided for it. A line is an outcome that was told with
        that rule among its reasons: the conversation's identifier, when, which outcome, whether the rule decided it, and whether the
        conversation waits for an answer now. No word of a
        patient is printed. What was erased or swept away is not there any more; the clinic's own records may know more.
        If a service has the data folder, it is asked over the socket there.
        Exit code 0 whoever is found, 1 if a conversation could not be read, 2 if there is no such edition or rule.

        Try:
          earhelp affected 5c0e... RF-030 --data FOLDER
          earhelp affected . RF-030 --json | jq -r '.told[] | select(.open) | .conversation'
        """;

    public static Command Make(Terminal terminal, TimeProvider clock)
    {
        var edition = new Argument<string>("EDITION") { Description = "The identifier of a kept edition, or a folder." };
        var rule = new Argument<string>("RULE") { Description = "The name of a rule, of one of its rows, or of a level." };
        var json = new Option<bool>("--json") { Description = "Write JSON for programs." };
        var (root, data) = (SharedOptions.Root(), SharedOptions.Data());
        var command = new TaughtCommand("affected", "List kept conversations that were told something by a rule.", Lesson) { edition, rule, json, root, data };
        command.SetAction(async (parsed, cancellation) =>
        {
            var kept = KeptEditions.Open(KeptFolder.Find(parsed.GetValue(data), parsed.GetValue(root), terminal), terminal);
            await using (kept.ConfigureAwait(false))
            {
                if (await FindAsync(kept, parsed.GetRequiredValue(edition), terminal, cancellation).ConfigureAwait(false) is not { } found)
                    return ExitCode.FaultsFound;
                var name = parsed.GetRequiredValue(rule);
                if (!found.Dialog.Rules.Any(r => r.Id == name || r.Owner == name) && !found.Dialog.Levels.Any(l => l.Id == name))
                    throw new WrongUseException($"edition {found.Id} has no rule or level \"{name}\".{Nearest(found, name)}");
                var recall = await kept.AffectedAsync(found.Id, name, clock, cancellation).ConfigureAwait(false);
                await terminal.Out.WriteAsync(parsed.GetValue(json) ? RecallText.Json(recall, found.Id, name) : RecallText.Write(recall, found.Id, name)).ConfigureAwait(false);
                foreach (var conversation in recall.Unreadable)
                    await terminal.Error.WriteLineAsync($"earhelp: conversation {conversation} cannot be read; nobody knows what it was told. Restore the last verified backup.").ConfigureAwait(false);
                return recall.Unreadable.IsEmpty ? ExitCode.Fine : ExitCode.FaultsFound;
            }
        });
        return command;
    }

    /// <summary>A kept edition; a folder is only read to know which one it is.</summary>
    static async Task<Edition?> FindAsync(KeptEditions kept, string name, Terminal terminal, CancellationToken cancellation)
    {
        if (!Directory.Exists(Path.GetFullPath(name, terminal.Folder)))
            return await kept.FindAsync(name, cancellation).ConfigureAwait(false);
        return OpenedEdition.Open(name, terminal) is { } opened ? await kept.FindAsync(opened.Edition.Id, cancellation).ConfigureAwait(false) : null;
    }

    static string Nearest(Edition edition, string name) =>
        NearestName.To(name, edition.Dialog.Rules.Select(r => r.Id)) is { } near ? $" Did you mean \"{near}\"?" : " \"earhelp explain\" says a rule in words.";
}
