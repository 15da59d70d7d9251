using System.Collections.Immutable;
using System.CommandLine;
using EarHelp.Cli.Describing;
using EarHelp.Cli.Proving;
using EarHelp.Cli.Teaching;
using EarHelp.Content;
using EarHelp.Content.Sources;
using EarHelp.Proof;
using NodaTime;

namespace EarHelp.Cli.Commands;

/// <summary><c>earhelp check</c>: every fault of the Markdown, and the proof over all possible patients.</summary>
public static class CheckCommand
{
    const string Lesson = """
        First every file is read. A fault is one line on stderr: file:line:column: error CODE: what is wrong. How to mend it.
        Then the edition is proven over every possible patient, numbers and dates included. What does not hold is one line on
        stderr too: file:line:column: error PROPERTY: what is wrong. Example: the smallest patient that shows it (how many
        patients it touches). The other rows involved. How to mend it.
        The properties: total, monotone, no harm, defer, reach, length, agree; and for each table: gap, overlap, never decides,
        column, outside, merge. A notice is told and is no fault. The last lines, on stdout, count what was read and proven.
        Exit code 1 if there is any fault.

        --json and --sarif (SARIF 2.1.0, for editors) put all of it on stdout instead.

        Try:
          earhelp check
          earhelp check --root FOLDER 2> faults.txt
          earhelp check --json | jq -c '.findings[].answers | select(.)' | earhelp assess --closed
        """;

    public static Command Make(Terminal terminal, TimeProvider clock)
    {
        var root = SharedOptions.Root();
        var json = new Option<bool>("--json") { Description = "Write JSON for programs." };
        var sarif = new Option<bool>("--sarif") { Description = "Write SARIF 2.1.0 for editors." };
        var command = new TaughtCommand("check", "Find every fault in dialogs/ and content/, and prove the rest over all possible patients.", Lesson) { root, json, sarif };
        command.SetAction(parsed =>
        {
            var began = clock.GetTimestamp();
            var sources = SourceFolder.Read(RootFolder.Find(parsed.GetValue(root), terminal));
            var compiled = EditionCompiler.Compile(sources, CompileOptions.Plain with { Today = Today(clock) });
            var report = compiled.Edition is null ? null : EditionProof.Of(compiled.Edition);
            ImmutableArray<CheckedFinding> findings =
                [.. compiled.Problems.Select(CheckedFinding.Of), .. (report?.Findings ?? []).Select(CheckedFinding.Of)];
            if (parsed.GetValue(json))
                terminal.Out.WriteLine(CheckJson.Write(findings, report));
            else if (parsed.GetValue(sarif))
                terminal.Out.WriteLine(CheckSarif.Write(findings));
            else
                Tell(terminal, sources.Length, compiled, report, clock.GetElapsedTime(began));
            return findings.All(f => f.IsNotice) ? ExitCode.Fine : ExitCode.FaultsFound;
        });
        return command;
    }

    static void Tell(Terminal terminal, int files, Compilation compiled, ProofReport? report, TimeSpan took)
    {
        foreach (var problem in compiled.Problems)
            terminal.Error.WriteLine(problem);
        if (compiled.Edition is null || report is null)
        {
            terminal.Out.WriteLine(FormattableString.Invariant($"{files} files read, {compiled.Problems.Length} faults found. Nothing is served until they are mended."));
            return;
        }

        foreach (var finding in report.Errors)
            terminal.Error.WriteLine(finding);
        terminal.Out.WriteLine(CheckSummary.Of(files, compiled.Edition, compiled.Assessor!));
        foreach (var notice in report.Findings.Where(f => f.IsNotice))
            terminal.Out.WriteLine(notice);
        terminal.Out.WriteLine($"An answer may lower the level of these facts, for clinicians to sign: {string.Join(", ", report.MayLower)}.");
        terminal.Out.WriteLine(report.Summary(took));
    }

    // The clinic's own day is known only once its page is read; a day more or less makes no difference to the end of a year's holidays.
    static LocalDate Today(TimeProvider clock) => Instant.FromDateTimeOffset(clock.GetUtcNow()).InUtc().Date;
}
