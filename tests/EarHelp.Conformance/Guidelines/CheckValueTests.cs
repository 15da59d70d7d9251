using System.Text.RegularExpressions;

namespace EarHelp.Conformance.Guidelines;

/// <summary>Each value of a source stands where it is said to stand, or there is a written reason why it is not told; the source stands beside it.</summary>
public sealed partial class CheckValueTests
{
    public static TheoryData<string> Ids => [.. CheckValue.All.Keys];

    [Fact]
    public void Every_value_has_its_row() =>
        Assert.Equal(Enumerable.Range(1, 100).Select(i => $"CV-{i:00}").Order(StringComparer.Ordinal), CheckValue.All.Keys.Order(StringComparer.Ordinal));

    [Theory]
    [MemberData(nameof(Ids))]
    public void A_value_stands_where_it_is_used(string id)
    {
        var value = CheckValue.All[id];

        Assert.NotEqual("", value.Source);
        Assert.NotEqual("", value.Words);
        if (value.IsStated)
            Assert.Contains(Plain(value.Words), Plain(File.ReadAllText(Repository.PathOf(value.StandsIn))), StringComparison.Ordinal);
        else
            Assert.NotEqual("-", value.Words);
    }

    [Theory]
    [MemberData(nameof(Ids))]
    public void What_holds_a_value_is_a_test_of_ours(string id) =>
        Assert.True(CheckValue.All[id].BoundBy is "-" || Repository.HasTests(CheckValue.All[id].BoundBy), CheckValue.All[id].BoundBy);

    /// <summary>Of agents a patient takes, no figure that nobody has seen in the original is told.</summary>
    [Theory]
    [InlineData("CV-65", "22")]
    [InlineData("CV-83", "4 g")]
    [InlineData("CV-84", "1.2 g")]
    public void A_figure_from_memory_is_never_shown(string id, string figure)
    {
        Assert.Equal("from memory", CheckValue.All[id].HowSure);
        foreach (var file in Directory.EnumerateFiles(Repository.PathOf("content/en"), "*.md", SearchOption.AllDirectories))
            Assert.DoesNotMatch($@"(?<![\d.-]){Regex.Escape(figure)}(?: %| in 24| a day|\b g)", File.ReadAllText(file));
    }

    static string Plain(string text) => Blanks().Replace(text, " ");

    [GeneratedRegex(@"\s+")]
    private static partial Regex Blanks();
}
