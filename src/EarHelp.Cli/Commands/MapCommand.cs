using System.CommandLine;
using EarHelp.Cli.Teaching;
using EarHelp.Proof.Seeing;

namespace EarHelp.Cli.Commands;

/// <summary><c>earhelp map</c>: the dialog as a picture.</summary>
public static class MapCommand
{
    const string Lesson = """
        Writes an SVG picture: on the left what is asked, in order; on the right the levels with their rules, how many patients get
        each, and the longest way to it in screens after the form; between them which screens decide where.

        Try:
          earhelp map > map.svg
        """;

    public static Command Make(Terminal terminal)
    {
        var root = SharedOptions.Root();
        var command = new TaughtCommand("map", "Write the dialog and its rules as a picture (SVG).", Lesson) { root };
        command.SetAction(parsed =>
        {
            if (OpenedEdition.Open(parsed.GetValue(root), terminal) is not { } opened)
                return ExitCode.FaultsFound;
            terminal.Out.Write(MapPicture.Write(DialogMap.Of(opened.Edition)));
            return ExitCode.Fine;
        });
        return command;
    }
}
