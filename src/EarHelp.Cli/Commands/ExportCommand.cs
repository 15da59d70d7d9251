using System.CommandLine;
using EarHelp.Cli.Exporting;
using EarHelp.Cli.Teaching;

namespace EarHelp.Cli.Commands;

/// <summary><c>earhelp export</c>: the tables for other programs.</summary>
public static class ExportCommand
{
    const string Lesson = """
        Writes every table as DMN XML (OMG DMN, the namespace of 1.3): the named facts, each table as it was written, the level over
        all tables together, whether the clinic may treat, and when each item is called for. Cells are FEEL, with texts in quotes.
        An input is null where its fact does not apply, and a null meets no cell but "-".

        Try:
          earhelp export > tables.dmn
        """;

    public static Command Make(Terminal terminal)
    {
        var root = SharedOptions.Root();
        var command = new TaughtCommand("export", "Write every table as DMN XML.", Lesson) { root };
        command.SetAction(parsed =>
        {
            if (OpenedEdition.Open(parsed.GetValue(root), terminal) is not { } opened)
                return ExitCode.FaultsFound;
            terminal.Out.Write(DmnXml.Write(opened.Edition));
            return ExitCode.Fine;
        });
        return command;
    }
}
