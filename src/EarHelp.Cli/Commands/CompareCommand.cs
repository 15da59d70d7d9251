using System.CommandLine;
using EarHelp.Cli.Comparing;
using EarHelp.Cli.Keeping;
using EarHelp.Cli.Teaching;
using EarHelp.Proof.Comparing;
using EarHelp.Proof.Telling;

namespace EarHelp.Cli.Commands;

/// <summary><c>earhelp compare OLD NEW</c>: for whom, exactly, the result changes.</summary>
public static class CompareCommand
{
    const string Lesson = """
        OLD and NEW are folders that hold dialogs/ and content/, or the identifier of an edition that a service keeps (--data).
        Counts are exact, over all patients who are possible in either edition. The most dangerous changes come first; each has an
        example patient, what that patient was told before and after, and the edited rows that cause it. Each decrease of urgency
        carries an identifier (D-...), by which an approver confirms it; it is another one as soon as the group is another.
        Exit code 0 whatever changed, 1 if an edition has faults or the comparison could not finish.

        Try:
          earhelp compare ../last-week .
          earhelp compare EDITION . --data FOLDER --html changes.html
          earhelp compare ../last-week . --json | jq '.changes[] | select(.id)'
        """;

    public static Command Make(Terminal terminal)
    {
        var before = new Argument<string>("OLD") { Description = "A folder, or the identifier of a kept edition." };
        var after = new Argument<string>("NEW") { Description = "A folder, or the identifier of a kept edition." };
        var data = SharedOptions.Data();
        var json = new Option<bool>("--json") { Description = "Write JSON for programs." };
        var html = new Option<string?>("--html") { Description = "Write one self-contained page into this file.", HelpName = "FILE" };
        var command = new TaughtCommand("compare", "Say exactly for whom the result changes between two editions.", Lesson) { before, after, data, json, html };
        command.SetAction(async (parsed, cancellation) =>
        {
            var named = new NamedEdition(parsed.GetValue(data), terminal);
            var (old, now) = (await named.OpenAsync(parsed.GetRequiredValue(before), cancellation).ConfigureAwait(false), await named.OpenAsync(parsed.GetRequiredValue(after), cancellation).ConfigureAwait(false));
            if (old is null || now is null)
                return ExitCode.FaultsFound;
            var comparison = EditionComparison.Of(old, now);
            var examples = ExamplesThatChange.Between(old, now, named.ExamplesOf(parsed.GetRequiredValue(after), parsed.GetRequiredValue(before)));
            if (parsed.GetValue(html) is { } file)
                await File.WriteAllTextAsync(Path.GetFullPath(file, terminal.Folder), ComparisonHtml.Write(comparison, examples), cancellation).ConfigureAwait(false);
            await terminal.Out.WriteAsync(parsed.GetValue(json) ? ComparisonJson.Write(comparison, examples) + "\n" : ComparisonText.Write(comparison, examples)).ConfigureAwait(false);
            return comparison.Bound is null ? ExitCode.Fine : ExitCode.FaultsFound;
        });
        return command;
    }
}
