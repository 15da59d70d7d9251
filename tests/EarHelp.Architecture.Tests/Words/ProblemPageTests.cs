using System.Text.RegularExpressions;
using EarHelp.Architecture.Tests.Reading;

namespace EarHelp.Architecture.Tests.Words;

/// <summary>Each fault that an author can make has a page with a bad example and a good one; a code is never taken twice.</summary>
public sealed partial class ProblemPageTests
{
    const string Folder = "src/EarHelp.Content/Problems";

    static IEnumerable<string> Declared => Code().Matches(Repository.Read($"{Folder}/Codes.cs")).Select(m => m.Value);

    static IEnumerable<string> Pages => Repository.Files(Folder, "EH*.md").Select(p => Path.GetFileNameWithoutExtension(p));

    [Fact]
    public void Every_code_has_its_page()
    {
        Findings.None(Declared.Except(Pages));
    }

    [Fact]
    public void Every_page_belongs_to_a_code()
    {
        Findings.None(Pages.Except(Declared));
    }

    [Fact]
    public void No_code_is_taken_twice()
    {
        Findings.None(Declared.GroupBy(c => c).Where(g => g.Count() > 1).Select(g => g.Key));
    }

    [Fact]
    public void Every_page_shows_a_bad_example_and_a_good_one()
    {
        Findings.None(Pages.Where(p => Fence().Count(Repository.Read($"{Folder}/{p}.md")) < 4));
    }

    [Fact]
    public void No_code_stands_anywhere_but_in_the_list()
    {
        Findings.None(Repository.ProductCode.Where(f => !f.Path.EndsWith("/Codes.cs", StringComparison.Ordinal)).SelectMany(Literals.In).Where(t => Code().IsMatch(t.Text)).Select(t => t.Spot));
    }

    [GeneratedRegex(@"EH\d{4}")]
    private static partial Regex Code();

    [GeneratedRegex("^(```|~~~)", RegexOptions.Multiline)]
    private static partial Regex Fence();
}
