using System.Collections.Immutable;
using System.CommandLine;
using EarHelp.Cli.Deciding;
using EarHelp.Cli.Teaching;
using EarHelp.Content;
using EarHelp.Content.Sources;
using EarHelp.Triage.Tables;

namespace EarHelp.Cli.Commands;

/// <summary><c>earhelp decide FILE.md</c>: one decision table of any Markdown file over lines of inputs.</summary>
public static class DecideCommand
{
    const string Lesson = """
        The table has condition columns and conclusion columns with **bold** headings; the heading above it states the
        hit policy: ## How much (policy F: the first matching row decides). Cells are FEEL unary tests: -, yes, <= 3, [4..90].
        In, one object a line: a plain value for each condition column; one that is left out is null.
        Out, one line each: an object of conclusions (U, A, P, F), a list of them (R, O, C), one value (C+, C<, C>, C#).
        A line that the table cannot decide is an error on stderr that names the line, and the exit code is 1.

        Try:
          echo '{"age": 7, "member": true}' | earhelp decide prices.md
          earhelp decide prices.md --table "How much" < inputs.jsonl
        """;

    public static Command Make(Terminal terminal)
    {
        var file = new Argument<string>("FILE.md") { Description = "Any Markdown file with a decision table." };
        var name = new Option<string?>("--table") { Description = "Which table, if the file has several: the heading above it.", HelpName = "NAME" };
        var command = new TaughtCommand("decide", "Decide lines of inputs by one decision table.", Lesson) { file, name };
        command.SetAction(async (parsed, cancellation) =>
        {
            var written = parsed.GetRequiredValue(file);
            var path = Path.GetFullPath(written, terminal.Folder);
            if (!File.Exists(path))
                throw new WrongUseException($"there is no file \"{written}\".");
            var source = new SourceFile(written.Replace('\\', '/'), await File.ReadAllBytesAsync(path, cancellation).ConfigureAwait(false));
            var reading = DecideFile.Read(source, LevelsNear(path), parsed.GetValue(name));
            foreach (var problem in reading.Problems)
                await terminal.Error.WriteLineAsync(problem.ToString()).ConfigureAwait(false);
            return reading.Table is { } table ? await RunAsync(table, terminal, cancellation).ConfigureAwait(false) : ExitCode.FaultsFound;
        });
        return command;
    }

    /// <summary>The order of levels, if the file belongs to an edition.</summary>
    static ImmutableArray<string> LevelsNear(string path) =>
        SourceFolder.FindRoot(Path.GetDirectoryName(path)!) is { } root ? DecideFile.LevelsOf(SourceFolder.Read(root)) : [];

    static async Task<int> RunAsync(DecisionTable table, Terminal terminal, CancellationToken cancellation)
    {
        var result = ExitCode.Fine;
        for (var number = 1; await terminal.In.ReadLineAsync(cancellation).ConfigureAwait(false) is { } line; number++)
        {
            if (string.IsNullOrWhiteSpace(line))
                continue;
            var (inputs, fault) = InputLine.Read(table, line);
            var decision = inputs is null ? null : table.Decide(inputs);
            if (decision is Decision.Failed failed)
                fault = failed.Fault;
            if (fault is null)
            {
                await terminal.Out.WriteLineAsync(DecisionJson.Write(table, decision!)).ConfigureAwait(false);
                continue;
            }

            result = ExitCode.FaultsFound;
            await terminal.Error.WriteLineAsync($"line {number}: {fault}").ConfigureAwait(false);
        }

        return result;
    }
}
