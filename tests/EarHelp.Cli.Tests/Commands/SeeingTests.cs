using System.Xml.Linq;

namespace EarHelp.Cli.Tests.Commands;

public sealed class SeeingTests
{
    [Fact]
    public async Task The_map_is_a_picture_with_every_level_and_rule()
    {
        var called = await Called.WithAsync("map");

        var picture = XDocument.Parse(called.Out);
        var texts = picture.Descendants().Where(e => e.Name.LocalName == "text").Select(e => e.Value).ToArray();
        Assert.Equal("svg", picture.Root!.Name.LocalName);
        Assert.Contains("within a day", texts);
        Assert.Contains(texts, t => t.Contains("RF-064", StringComparison.Ordinal));
        Assert.Contains(texts, t => t.Contains("patients, at most", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_rule_is_explained_with_an_example_and_what_tests_it()
    {
        var called = await Called.WithAsync("explain", "RF-064");

        Assert.Equal((0, string.Empty), (called.ExitCode, called.Error));
        Assert.Contains("If what is in the ear is live insect, then it is \"within a day\", at: ear doctors on call, emergency department; because a live insect.", called.Out, StringComparison.Ordinal);
        Assert.Contains("For example: ", called.Out, StringComparison.Ordinal);
        Assert.Matches(@"Tested by:\n    decides: .+ \(dialogs/examples/.+\.md:\d+\)", called.Out);
    }

    [Fact]
    public async Task All_rows_of_a_rule_are_explained_by_its_name()
    {
        var called = await Called.WithAsync("explain", "RF-041");

        Assert.Equal(4, called.Out.Split('\n').Count(l => l.StartsWith("RF-041.", StringComparison.Ordinal)));
    }

    [Fact]
    public async Task An_unknown_rule_is_a_wrong_call_that_says_what_may_be_meant()
    {
        var called = await Called.WithAsync("explain", "RF-0644");

        Assert.Equal(2, called.ExitCode);
        Assert.Contains("Did you mean \"RF-064\"?", called.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_export_names_every_row_in_the_namespace_of_the_standard()
    {
        var called = await Called.WithAsync("export");

        var model = XDocument.Parse(called.Out);
        XNamespace dmn = "https://www.omg.org/spec/DMN/20191111/MODEL/";
        Assert.Equal(dmn + "definitions", model.Root!.Name);
        Assert.Contains(model.Descendants(dmn + "outputEntry"), e => e.Value == "\"RF-064\"");
    }
}
