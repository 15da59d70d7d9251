using System.Collections.Immutable;
using System.Reflection;
using EarHelp.Content.Examples;
using EarHelp.Content.Problems;
using EarHelp.Content.Sources;

namespace EarHelp.Content.Tests.Problems;

public sealed class ProblemPageTests
{
    public static TheoryData<string> AllCodes => [.. ProblemPages.Codes];

    public static TheoryData<string> CodesOfAuthorsOnly => [.. Codes.OfAuthorsOnly.Order(StringComparer.Ordinal)];

    [Fact]
    public void Every_code_has_a_page_and_every_page_a_code()
    {
        var codes = typeof(Codes).GetFields(BindingFlags.Public | BindingFlags.Static).Select(f => (string)f.GetRawConstantValue()!).Order(StringComparer.Ordinal);

        Assert.Equal(string.Join(' ', codes), string.Join(' ', ProblemPages.Codes));
    }

    [Theory]
    [MemberData(nameof(AllCodes))]
    public void The_wrong_example_is_reported_where_the_page_says(string code)
    {
        var example = PageExample.Of(code);

        var problems = ProblemsOf(example.Bad);

        Assert.Contains($"{example.ReportedAt} {code}", problems.Select(p => $"{p.Spot} {p.Code}"));
        Assert.All(problems, p => Assert.EndsWith(".", p.Fault.TrimEnd('"', ')'), StringComparison.Ordinal));
    }

    [Theory]
    [MemberData(nameof(AllCodes))]
    public void The_right_example_has_no_fault(string code) =>
        Assert.Empty(ProblemsOf(PageExample.Of(code).Good));

    [Theory]
    [MemberData(nameof(CodesOfAuthorsOnly))]
    public void What_is_asked_of_authors_only_keeps_no_edition_from_service_that_is_kept_already(string code)
    {
        var sources = PageExample.Of(code).Bad.Aggregate(SmallSources.All, (all, file) => all.With(file));

        var compiled = EditionCompiler.Compile(sources, CompileOptions.InService);

        Assert.Empty(compiled.Problems);
        Assert.NotNull(compiled.Assessor);
    }

    // What does not lie in one of the two folders is a file to decide by.
    static ImmutableArray<Problem> ProblemsOf(ImmutableArray<SourceFile> files)
    {
        Assert.NotEmpty(files);
        if (files[0].Path.StartsWith("tables/", StringComparison.Ordinal))
            return DecideFile.Read(files[0], []).Problems;
        var sources = files.Aggregate(SmallSources.All, (all, file) => all.With(file));
        var compiled = SmallSources.Compile(sources);
        return compiled is { Edition: { } edition, Assessor: { } assessor }
            ? ExamplePatients.Check([.. sources.Where(s => SourceFolder.IsExamples(s.Path))], edition, assessor).Problems
            : compiled.Problems;
    }
}
