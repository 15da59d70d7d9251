using System.CommandLine;
using EarHelp.Cli.Describing;
using EarHelp.Cli.Teaching;

namespace EarHelp.Cli.Commands;

/// <summary><c>earhelp facts</c>: what can be known, and how it is asked.</summary>
public static class FactsCommand
{
    const string Lesson = """
        With --json, one array with an object for each fact, in asking order:
          id, about (person, ear), kind (yes/no, named, number, date), values (names in order, or from/to/step),
          unit, counted_as (a date: the number that is counted from it and decides), ask_in, red_flag, clear,
          applies_when, question (screen, ask, why, entry on a checklist, options).

        Try:
          earhelp facts
          earhelp facts --json | jq '.[] | select(.red_flag) | .id'
        """;

    public static Command Make(Terminal terminal)
    {
        var root = SharedOptions.Root();
        var language = SharedOptions.Language();
        var json = new Option<bool>("--json") { Description = "Write JSON for programs." };
        var command = new TaughtCommand("facts", "List the facts that can be given to \"assess\", with their values.", Lesson) { root, language, json };
        command.SetAction(parsed =>
        {
            if (OpenedEdition.Open(parsed.GetValue(root), terminal) is not { } edition)
                return ExitCode.FaultsFound;
            var dialog = edition.Edition.Dialog;
            terminal.Out.WriteLine(parsed.GetValue(json) ? FactsJson.Write(dialog, edition.WordingOf(parsed.GetValue(language)!)) : FactsTable.Write(dialog));
            return ExitCode.Fine;
        });
        return command;
    }
}
