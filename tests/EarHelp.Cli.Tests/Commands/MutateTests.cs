using System.Collections.Immutable;
using EarHelp.Cli.Tests.Deploying;
using EarHelp.Content;
using EarHelp.Content.Examples;
using EarHelp.Content.Sources;
using EarHelp.Proof.Mutating;

namespace EarHelp.Cli.Tests.Commands;

public sealed class MutateTests
{
    const int OneOf = 30;

    /// <summary>A sample of the rows that gave some example patient its level; the command runs every step of every kind.</summary>
    [Fact]
    public void A_dropped_row_of_the_shipped_tables_is_noticed_by_an_example_patient()
    {
        var compiled = EditionCompiler.Compile(SourceFolder.Read(Repository.Root), CompileOptions.Plain);
        var (edition, examples) = (compiled.Edition!, SourceFolder.ReadExamples(Repository.Root));
        var deciding = ExamplePatients.Check(examples, edition, compiled.Assessor!).Runs.SelectMany(r => r.Example.Musts).OfType<Expected.DecidedBy>().Select(b => edition.Dialog.Rules[b.Rule].Id).ToHashSet();
        var mutants = Mutations.Of(edition.Dialog).Where(m => m.Step == MutationStep.DropRow && deciding.Contains(m.What.Split('"')[1])).Where((_, i) => i % OneOf == 0).ToImmutableArray();

        var report = new MutationRun(edition, (dialog, assessor) => !ExamplePatients.Check(examples, edition with { Dialog = dialog }, assessor).Problems.IsEmpty).Of(mutants);

        Assert.NotEmpty(mutants);
        Assert.Empty(report.Survivors);
    }
}
