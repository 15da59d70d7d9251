using System.Collections.Immutable;
using EarHelp.Content.Examples;
using EarHelp.Content.Sources;
using EarHelp.Triage.Editions;

namespace EarHelp.Content.Tests.Examples;

/// <summary>The example patients in <c>dialogs/examples/</c>; each file names the evidence for what must come out.</summary>
public sealed class ShippedExampleTests
{
    static readonly string Root = SourceFolder.FindRoot(AppContext.BaseDirectory)!;
    static readonly Compilation Compiled = EditionCompiler.Compile(SourceFolder.Read(Root), CompileOptions.Plain);
    static readonly ExamplesChecked Checked = ExamplePatients.Check(SourceFolder.ReadExamples(Root), Compiled.Edition!, Compiled.Assessor!);

    [Fact]
    public void Every_example_patient_comes_out_as_it_must() =>
        Assert.True(Checked.Problems.IsEmpty, string.Join('\n', Checked.Problems));

    [Fact]
    public void There_are_examples_and_all_of_them_are_run()
    {
        Assert.True(Checked.Count > 100, $"Only {Checked.Count} examples were found.");
        Assert.Equal(Checked.Count, Checked.Runs.Length);
    }

    [Fact]
    public void Every_example_says_what_level_must_come_out() =>
        Assert.All(Checked.Runs, r => Assert.Contains(r.Example.Musts, m => m is Expected.Level));

    [Theory]
    [InlineData("rule")]
    [InlineData("may treat")]
    [InlineData("warning")]
    [InlineData("advice")]
    [InlineData("explanation")]
    [InlineData("screen")]
    [InlineData("outcome page")]
    [InlineData("answer")]
    public void Nothing_that_the_dialog_holds_is_without_an_example(string what)
    {
        var notReached = Coverage.Of(Compiled.Edition!, Checked.Runs).Where(c => c.What == what && c.Examples == 0).Select(c => $"{c.Spot}: {c.Name}");

        Assert.True(!notReached.Any(), string.Join('\n', notReached));
    }
}
