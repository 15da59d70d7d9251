using System.CommandLine;
using EarHelp.Cli.Describing;
using EarHelp.Cli.Proving;
using EarHelp.Cli.Teaching;
using EarHelp.Content.Examples;
using EarHelp.Content.Sources;
using EarHelp.Web.Editions;
using NodaTime;

namespace EarHelp.Cli.Commands;

/// <summary><c>earhelp check</c>: every fault of the Markdown, every example that comes out otherwise, and the proof over all possible patients.</summary>
public static class CheckCommand
{
    const string Lesson = """
        First every file is read. A fault is one line on stderr: file:line:column: error CODE: what is wrong. How to mend it.
        If there is none, the example patients in dialogs/examples/ are assessed; one that does not come out as it must is a fault.
        So they are if the only faults are names that are not there: each patient who misses a row or a question that was taken out is told.
        Then the edition is proven over every possible patient, numbers and dates included. What does not hold is one line on
        stderr too: file:line:column: error PROPERTY: what is wrong. Example: the smallest patient that shows it (how many
        patients it touches). The other rows involved. How to mend it.
        The properties: total, monotone, no harm, defer, reach, length, agree; and for each table: gap, overlap, never decides,
        column, outside, merge. A notice is told and is no fault. The last lines, on stdout, count what was read and proven.
        Exit code 1 if there is any fault.

        A page past the day after "review by:" is a warning: it is served, and an answer past its grace gives way to general advice.
        Then come the five texts that are the hardest to read.

        With --coverage a table says how many examples reach each rule, advice item, screen and outcome page.
        --json and --sarif (SARIF 2.1.0, for editors) put everything on stdout instead.

        --mutate changes the decisions one small step at a time (a row dropped, a value flipped, a bound moved by one, a level
        lowered, a "never if" or a question dropped, two rows swapped) and says who notices: an example patient, a property, or
        nothing. What nothing notices is told with the example that is missing; exit code 1 if it lowers urgency or widens advice.
        --every N runs one step of N.

        Try:
          earhelp check
          earhelp check --root FOLDER 2> faults.txt
          earhelp check --coverage | grep " none "
          earhelp check --json | jq -c '.findings[].answers | select(.)' | earhelp assess --closed
          earhelp check --mutate --every 50
        """;

    public static Command Make(Terminal terminal, TimeProvider clock)
    {
        var root = SharedOptions.Root();
        var coverage = new Option<bool>("--coverage") { Description = "Print what the example patients reach, and what none of them reaches." };
        var json = new Option<bool>("--json") { Description = "Write JSON for programs." };
        var sarif = new Option<bool>("--sarif") { Description = "Write SARIF 2.1.0 for editors." };
        var mutate = new Option<bool>("--mutate") { Description = "Change the decisions one step at a time, and say who notices." };
        var every = new Option<int>("--every") { Description = "With --mutate: run one step of so many.", HelpName = "N", DefaultValueFactory = _ => 1 };
        var command = new TaughtCommand("check", "Find every fault in dialogs/ and content/, run the example patients, and prove the rest over all possible patients.", Lesson) { root, coverage, json, sarif, mutate, every };
        command.SetAction((parsed, cancellation) =>
        {
            var began = clock.GetTimestamp();
            var folder = RootFolder.Find(parsed.GetValue(root), terminal);
            var check = EditionCheck.Of(folder, NeededByProgram.On(Today(clock)));
            if (parsed.GetValue(json))
                terminal.Out.WriteLine(CheckJson.Write(check.Findings, check.Report));
            else if (parsed.GetValue(sarif))
                terminal.Out.WriteLine(CheckSarif.Write(check.Findings));
            else
                CheckText.Write(check, clock.GetElapsedTime(began), terminal);
            if (parsed.GetValue(coverage) && check is { Compiled.Edition: { } edition, Examples: { } examples })
                terminal.Out.WriteLine(CoverageTable.Write(Coverage.Of(edition, examples.Runs)));
            if (!check.IsFine || !parsed.GetValue(mutate))
                return Task.FromResult(check.IsFine ? ExitCode.Fine : ExitCode.FaultsFound);
            var isSafe = MutationTerminal.Run(check.Compiled.Edition!, SourceFolder.ReadExamples(folder), Math.Max(1, parsed.GetValue(every)), terminal, cancellation);
            return Task.FromResult(isSafe ? ExitCode.Fine : ExitCode.FaultsFound);
        });
        return command;
    }

    // The clinic's own day is known only once its page is read; a day more or less makes no difference to the end of a year's holidays.
    static LocalDate Today(TimeProvider clock) => Instant.FromDateTimeOffset(clock.GetUtcNow()).InUtc().Date;
}
