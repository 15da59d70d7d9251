using System.CommandLine;
using EarHelp.Cli.Describing;
using EarHelp.Cli.Teaching;
using EarHelp.Content;
using EarHelp.Content.Sources;
using NodaTime;

namespace EarHelp.Cli.Commands;

/// <summary><c>earhelp check</c>: every fault of the Markdown, and what was read.</summary>
public static class CheckCommand
{
    const string Lesson = """
        Every fault is one line on stderr: file:line:column: error CODE: what is wrong. How to mend it.
        The last line, on stdout, counts what was read. Exit code 1 if there is any fault.

        Try:
          earhelp check
          earhelp check --root FOLDER 2> faults.txt
        """;

    public static Command Make(Terminal terminal, TimeProvider clock)
    {
        var root = SharedOptions.Root();
        var command = new TaughtCommand("check", "Find every fault in dialogs/ and content/.", Lesson) { root };
        command.SetAction(parsed =>
        {
            var sources = SourceFolder.Read(RootFolder.Find(parsed.GetValue(root), terminal));
            var compiled = EditionCompiler.Compile(sources, CompileOptions.Plain with { Today = Today(clock) });
            foreach (var problem in compiled.Problems)
                terminal.Error.WriteLine(problem);
            terminal.Out.WriteLine(compiled.Edition is { } edition
                ? CheckSummary.Of(sources.Length, edition, compiled.Assessor!)
                : FormattableString.Invariant($"{sources.Length} files read, {compiled.Problems.Length} faults found. Nothing is served until they are mended."));
            return compiled.Edition is null ? ExitCode.FaultsFound : ExitCode.Fine;
        });
        return command;
    }

    // The clinic's own day is known only once its page is read; a day more or less makes no difference to the end of a year's holidays.
    static LocalDate Today(TimeProvider clock) => Instant.FromDateTimeOffset(clock.GetUtcNow()).InUtc().Date;
}
