using System.CommandLine;
using EarHelp.Cli.Describing;
using EarHelp.Cli.Teaching;
using EarHelp.Content.Examples;
using EarHelp.Content.Sources;
using EarHelp.Proof.Seeing;

namespace EarHelp.Cli.Commands;

/// <summary><c>earhelp explain RULE</c>: a rule in words, with an example and everything that tests it.</summary>
public static class ExplainCommand
{
    const string Lesson = """
        RULE is the name of a row (RF-030.2), or of the rule that owns several (RF-030).

        Try:
          earhelp explain RF-030
        """;

    public static Command Make(Terminal terminal)
    {
        var root = SharedOptions.Root();
        var rule = new Argument<string>("RULE") { Description = "The name of a rule or of one of its rows." };
        var command = new TaughtCommand("explain", "Say a rule in words, with an example and everything that tests it.", Lesson) { rule, root };
        command.SetAction(parsed =>
        {
            if (OpenedEdition.Open(parsed.GetValue(root), terminal) is not { } opened)
                return ExitCode.FaultsFound;
            var name = parsed.GetRequiredValue(rule);
            var explained = RuleExplanation.Of(opened.Edition, name);
            if (explained.IsEmpty)
                throw new WrongUseException($"there is no rule \"{name}\". {Nearest(opened, name)}");
            var examples = ExamplePatients.Check(SourceFolder.ReadExamples(RootFolder.Find(parsed.GetValue(root), terminal)), opened.Edition, opened.Assessor);
            terminal.Out.Write(string.Join('\n', explained.Select(e => ExplanationText.Write(e, examples.Runs))));
            return ExitCode.Fine;
        });
        return command;
    }

    static string Nearest(OpenedEdition opened, string name) =>
        Triage.Cells.NearestName.To(name, opened.Edition.Dialog.Rules.Select(r => r.Id)) is { } near ? $"Did you mean \"{near}\"?" : "The rules stand in dialogs/.";
}
