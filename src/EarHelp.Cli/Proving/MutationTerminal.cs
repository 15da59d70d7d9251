using System.Collections.Immutable;
using EarHelp.Content.Examples;
using EarHelp.Content.Sources;
using EarHelp.Proof.Mutating;
using EarHelp.Triage.Editions;

namespace EarHelp.Cli.Proving;

/// <summary>Runs the mutants of an edition against its example patients and its properties, with a bar that shows how far it is.</summary>
static class MutationTerminal
{
    const int BarLength = 40;

    /// <param name="every">Only one mutant of so many is run; 1: all.</param>
    /// <returns>Nobody's urgency is lowered and no advice widened by a mutant that nothing notices.</returns>
    public static bool Run(Edition edition, ImmutableArray<SourceFile> examples, int every, Terminal terminal, CancellationToken cancellation)
    {
        var run = new MutationRun(edition, (dialog, assessor) => !ExamplePatients.Check(examples, edition with { Dialog = dialog }, assessor).Problems.IsEmpty);
        var mutants = Mutations.Of(edition.Dialog).Where((_, i) => i % every == 0).ToImmutableArray();
        var bar = new Lock();
        var report = run.Of(
            mutants,
            done =>
            {
                lock (bar)
                    terminal.Error.Write($"\r[{new string('#', done * BarLength / mutants.Length).PadRight(BarLength)}] {done}/{mutants.Length}");
            },
            cancellation);
        terminal.Error.WriteLine();
        foreach (var survivor in report.Survivors)
            terminal.Out.WriteLine(survivor);
        terminal.Out.WriteLine(report.Summary);
        return report.Dangerous.IsEmpty;
    }
}
