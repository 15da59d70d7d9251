using System.Collections.Immutable;
using EarHelp.Cli.Tests.Deploying;
using EarHelp.Content;
using EarHelp.Content.Examples;
using EarHelp.Content.Sources;
using EarHelp.Proof.Mutating;

namespace EarHelp.Cli.Tests.Commands;

public sealed class MutateTests
{
    /// <summary>A prime, so that the sample takes every kind of step and walks through all pages; the command runs every step.</summary>
    const int OneOf = 97;

    /// <summary>Somewhere else each time the rules change in number, and always the same for the same rules.</summary>
    [Fact]
    public void Nothing_that_lowers_urgency_or_widens_advice_in_the_shipped_tables_goes_unnoticed()
    {
        var compiled = EditionCompiler.Compile(SourceFolder.Read(Repository.Root), CompileOptions.Plain);
        var (edition, examples) = (compiled.Edition!, SourceFolder.ReadExamples(Repository.Root));
        var all = Mutations.Of(edition.Dialog);
        var mutants = all.Where((_, i) => i % OneOf == all.Length % OneOf).ToImmutableArray();

        var report = new MutationRun(edition, (dialog, assessor) => !ExamplePatients.Check(examples, edition with { Dialog = dialog }, assessor).Problems.IsEmpty).Of(mutants);

        Assert.True(mutants.Length > 15, $"{mutants.Length} of {all.Length} steps are a small sample.");
        Assert.Empty(report.Dangerous);
    }
}
