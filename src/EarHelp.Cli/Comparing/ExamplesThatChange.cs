using System.Collections.Immutable;
using EarHelp.Content.Examples;
using EarHelp.Content.Sources;
using EarHelp.Proof.Telling;
using EarHelp.Triage.Assessments;
using EarHelp.Triage.Editions;

namespace EarHelp.Cli.Comparing;

/// <summary>Which example patients are told something else by the new edition. Only those that both editions can read are held together.</summary>
static class ExamplesThatChange
{
    public static ImmutableArray<ChangedExample> Between(Edition before, Edition after, ImmutableArray<SourceFile> examples)
    {
        var (old, now) = (RunsOf(before, examples), RunsOf(after, examples));
        return
        [
            .. from run in now
               let was = old.FirstOrDefault(r => r.Example.Spot == run.Example.Spot)
               where was is not null
               let told = (Before: Told(before.Dialog, was.Result), After: Told(after.Dialog, run.Result))
               where told.Before != told.After
               select new ChangedExample(run.Example.Name, run.Example.Spot, Different(told.Before, told.After), Different(told.After, told.Before)),
        ];
    }

    static ImmutableArray<ExampleRun> RunsOf(Edition edition, ImmutableArray<SourceFile> examples) =>
        ExamplePatients.Check(examples, edition, Assessor.Build(edition.Dialog)).Runs;

    static string Told(Dialog dialog, Assessment result) => string.Join('\n',
    [
        result.Level is { } level ? dialog.Levels[level].Id : "not settled",
        string.Join(", ", result.Destinations.Select(d => dialog.Destinations[d].Id)),
        result.MayTreat is { } treat ? treat.Hold is { } hold ? $"not until {hold}" : "the clinic may treat" : "-",
        .. result.Advice.Select(a => dialog.Advice[a.Item].Id).Distinct(StringComparer.Ordinal),
        .. result.Warnings,
    ]);

    /// <summary>The parts of the one that the other does not have; if there are none, that something went.</summary>
    static string Different(string one, string other) =>
        string.Join("; ", one.Split('\n').Except(other.Split('\n'))) is { Length: > 0 } parts ? parts : "nothing in its place";
}
