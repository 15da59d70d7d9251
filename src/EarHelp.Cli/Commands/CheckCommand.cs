using System.CommandLine;
using EarHelp.Cli.Teaching;

namespace EarHelp.Cli.Commands;

/// <summary><c>earhelp check</c>: every fault of the Markdown, and what was read.</summary>
public static class CheckCommand
{
    const string Lesson = """
        Every fault is one line: file:line:column: error CODE: what is wrong. How to mend it.
        The last line counts what was read. Exit code 1 if there is any fault.

        Try:
          earhelp check
          earhelp check --root FOLDER
        """;

    public static Command Make(Terminal terminal, TimeProvider clock)
    {
        var root = SharedOptions.Root();
        var command = new TaughtCommand("check", "Find every fault in dialogs/ and content/.", Lesson) { root };
        command.SetAction(parsed =>
        {
            var compiled = OpenedEdition.Compile(parsed.GetValue(root), terminal, clock);
            foreach (var problem in compiled.Problems)
                terminal.Error.WriteLine(problem);
            terminal.Out.WriteLine(compiled.Summary);
            return compiled.Edition is null ? ExitCode.FaultsFound : ExitCode.Fine;
        });
        return command;
    }
}
