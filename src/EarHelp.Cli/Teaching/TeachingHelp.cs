using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;

namespace EarHelp.Cli.Teaching;

/// <summary>The usual help, then the lesson of the command.</summary>
sealed class TeachingHelp(HelpAction usual, string lessonOfAll) : SynchronousCommandLineAction
{
    /// <summary>Makes the help option of a command tree teach.</summary>
    public static void AddTo(RootCommand root, string lessonOfAll)
    {
        ArgumentNullException.ThrowIfNull(root);
        var help = root.Options.OfType<HelpOption>().Single();
        help.Action = new TeachingHelp((HelpAction)help.Action!, lessonOfAll);
    }

    public override int Invoke(ParseResult parseResult)
    {
        ArgumentNullException.ThrowIfNull(parseResult);
        var result = usual.Invoke(parseResult);
        var lesson = parseResult.CommandResult.Command is TaughtCommand taught ? taught.Lesson : lessonOfAll;
        parseResult.InvocationConfiguration.Output.WriteLine(lesson.TrimEnd());
        return result;
    }
}
