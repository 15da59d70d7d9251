using System.Collections.Immutable;
using System.Text;
using EarHelp.Cli.Tests.Deploying;
using EarHelp.Content;
using EarHelp.Content.Examples;
using EarHelp.Content.Problems;
using EarHelp.Content.Sources;

namespace EarHelp.Cli.Tests.Commands;

/// <summary>A row is taken out of a page of the shipped dialogs, as an author would take it out.</summary>
public sealed class TakenOutRowTests
{
    static readonly ImmutableArray<SourceFile> Sources = SourceFolder.Read(Repository.Root);
    static readonly ImmutableArray<SourceFile> Examples = SourceFolder.ReadExamples(Repository.Root);

    [Theory]
    [InlineData("dialogs/ear/3-rules-now.md", "| RF-001 |")]
    [InlineData("dialogs/ear/4-rules-within-hours.md", "| RF-002.2 |")]
    [InlineData("dialogs/ear/6-rules-within-three-days.md", "| OTHERWISE |")]
    [InlineData("dialogs/ear/8-may-treat.md", "| HOLD-12 |")]
    [InlineData("dialogs/ear/2-named-facts.md", "| swallowing trouble | yes |")]
    [InlineData("dialogs/ear/1-facts.md", "| hole ever | ear |")]
    public void Is_missed_by_an_example_patient_and_not_only_by_its_name(string page, string row)
    {
        var without = Sources.Select(s => s.Path == page ? SourceFile.Of(page, Without(s, row)) : s).ToImmutableArray();

        var compiled = EditionCompiler.Compile(without, CompileOptions.Plain);
        var missed = ExamplePatients.Check(Examples, compiled)?.Problems ?? [];

        Assert.Contains(missed, p => p.Code == Codes.ExampleOtherwise);
    }

    [Fact]
    public void Names_the_patient_what_must_come_out_and_what_comes_out_instead()
    {
        const string Page = "dialogs/ear/1-facts.md";
        var without = Sources.Select(s => s.Path == Page ? SourceFile.Of(Page, Without(s, "| battery in the ear | person |")) : s).ToImmutableArray();

        var missed = ExamplePatients.Check(Examples, EditionCompiler.Compile(without, CompileOptions.Plain))!.Problems;

        Assert.Contains(missed, p => p.Fault.StartsWith("The example \"A blocked ear, and a hearing-aid battery is missing\": the level must be \"now\", and it comes out as \"no hurry\"", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("| cloth on a sore ear |", "; confused: yes", "the answer to \"confused\" must shut the advice \"cloth on a sore ear\"")]
    [InlineData("| bring someone along |", "age: < 18", "the answer to \"age\" must shut the advice \"bring someone along\"")]
    public void A_never_if_is_missed_also_where_the_level_hides_the_item(string row, string cell, string told)
    {
        const string Page = "dialogs/ear/9-advice.md";
        var source = Sources.Single(s => s.Path == Page);
        var lines = Encoding.UTF8.GetString(source.Bytes.Span).Split('\n');
        var changed = string.Join('\n', lines.Select(l => l.StartsWith(row, StringComparison.Ordinal) ? l.Replace(cell, cell[0] == ';' ? "" : "-", StringComparison.Ordinal) : l));

        var compiled = EditionCompiler.Compile(Sources.Replace(source, SourceFile.Of(Page, changed)), CompileOptions.Plain);
        var missed = ExamplePatients.Check(Examples, compiled)!.Problems;

        Assert.Contains(told, Assert.Single(missed).Fault, StringComparison.Ordinal);
    }

    static string Without(SourceFile source, string row)
    {
        var lines = Encoding.UTF8.GetString(source.Bytes.Span).Split('\n');
        Assert.Single(lines, l => l.StartsWith(row, StringComparison.Ordinal));
        return string.Join('\n', lines.Where(l => !l.StartsWith(row, StringComparison.Ordinal)));
    }
}
