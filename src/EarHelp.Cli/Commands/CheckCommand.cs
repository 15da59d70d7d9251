using System.CommandLine;
using EarHelp.Cli.Describing;
using EarHelp.Cli.Teaching;
using EarHelp.Content;
using EarHelp.Content.Examples;
using EarHelp.Content.Reviews;
using EarHelp.Content.Sources;
using EarHelp.Web.Editions;
using NodaTime;

namespace EarHelp.Cli.Commands;

/// <summary><c>earhelp check</c>: every fault of the Markdown, every example that comes out otherwise, and what was read.</summary>
public static class CheckCommand
{
    const string Lesson = """
        Every fault is one line on stderr: file:line:column: error CODE: what is wrong. How to mend it.
        If there is none, the example patients in dialogs/examples/ are assessed; one that does not come out
        as it must is a fault too. The last line, on stdout, counts what was read. Exit code 1 if there is any fault.

        A page past the day after "review by:" is a warning: it is served, and an answer past its grace gives way to general advice.
        Then come the five texts that are the hardest to read.

        With --coverage a table says how many examples reach each rule, advice item, screen and outcome page.

        Try:
          earhelp check
          earhelp check --root FOLDER 2> faults.txt
          earhelp check --coverage | grep " none "
        """;

    public static Command Make(Terminal terminal, TimeProvider clock)
    {
        var root = SharedOptions.Root();
        var coverage = new Option<bool>("--coverage")
        {
            Description = "Print what the example patients reach, and what none of them reaches.",
        };
        var command = new TaughtCommand("check", "Find every fault in dialogs/ and content/, and run the example patients.", Lesson) { root, coverage };
        command.SetAction(parsed => Run(RootFolder.Find(parsed.GetValue(root), terminal), parsed.GetValue(coverage), terminal, clock));
        return command;
    }

    static int Run(string root, bool withCoverage, Terminal terminal, TimeProvider clock)
    {
        var sources = SourceFolder.Read(root);
        var compiled = EditionCompiler.Compile(sources, NeededByProgram.On(Today(clock)));
        if (compiled is not { Edition: { } edition, Assessor: { } assessor })
        {
            foreach (var problem in compiled.Problems)
                terminal.Error.WriteLine(problem);
            terminal.Out.WriteLine(FormattableString.Invariant($"{sources.Length} files read, {compiled.Problems.Length} faults found. Nothing is served until they are mended."));
            return ExitCode.FaultsFound;
        }

        foreach (var due in ReviewsDue.Of(sources, Today(clock)))
            terminal.Error.WriteLine(FormattableString.Invariant($"{due.Spot}: warning: The review was due by {due.By:yyyy-MM-dd}. Look the page over, and write the new days. Owner: {due.Owner}."));
        var checkedExamples = ExamplePatients.Check(SourceFolder.ReadExamples(root), edition, assessor);
        foreach (var problem in checkedExamples.Problems)
            terminal.Error.WriteLine(problem);
        if (withCoverage)
            terminal.Out.WriteLine(CoverageTable.Write(Coverage.Of(edition.Dialog, checkedExamples.Runs)));
        terminal.Out.WriteLine("The hardest to read:");
        foreach (var text in HardestTexts.Of(edition))
            terminal.Out.WriteLine(text);
        terminal.Out.WriteLine(checkedExamples.Problems.IsEmpty
            ? CheckSummary.Of(sources.Length, edition, assessor, checkedExamples.Count)
            : FormattableString.Invariant($"{sources.Length} files read, no fault in them; {checkedExamples.Count} examples, {checkedExamples.Problems.Length} faults found."));
        return checkedExamples.Problems.IsEmpty ? ExitCode.Fine : ExitCode.FaultsFound;
    }

    // The clinic's own day is known only once its page is read; a day more or less makes no difference to the end of a year's holidays.
    static LocalDate Today(TimeProvider clock) => Instant.FromDateTimeOffset(clock.GetUtcNow()).InUtc().Date;
}
