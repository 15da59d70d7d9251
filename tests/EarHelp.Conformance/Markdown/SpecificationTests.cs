using System.Text.RegularExpressions;
using EarHelp.Conformance.Npm;
using EarHelp.Content.Reading;
using Markdig;
using Markdig.Syntax;
using Markdig.Syntax.Inlines;

namespace EarHelp.Conformance.Markdown;

/// <summary>Source of the expected output: the examples of the CommonMark specification, npm package commonmark-spec 0.31.2.</summary>
public sealed partial class SpecificationTests
{
    const int ExamplesInSpecification = 652;

    // The one example that needs the full case folding of Unicode (a sharp s is "ss"), which a program without culture tables does
    // not have. It speaks of link definitions, and our words have none.
    const string FullCaseFolding = "[ẞ]\n\n[SS]: /url\n";

    // A table is no part of CommonMark; no example happens to be one. Settings begin with three hyphens on the first line.
    static bool LooksLikeSettings(string markdown) => markdown.StartsWith("---\n", StringComparison.Ordinal);

    static List<(string Markdown, string Html)> Examples { get; } = Read();

    [Fact]
    public void The_specification_has_all_its_examples() =>
        Assert.Equal(ExamplesInSpecification, Examples.Count);

    [Fact]
    public void The_parser_reads_every_example_but_one_as_the_specification_does()
    {
        var plain = new MarkdownPipelineBuilder().Build();

        var different = Examples.Where(e => Normal(Markdig.Markdown.ToHtml(e.Markdown, plain)) != Normal(e.Html)).Select(e => e.Markdown);

        Assert.Equal([FullCaseFolding], different);
    }

    [Fact]
    public void Our_pipeline_differs_only_where_HTML_or_settings_stand()
    {
        var plain = new MarkdownPipelineBuilder().Build();

        var different = Examples
            .Where(e => !HoldsHtml(Markdig.Markdown.Parse(e.Markdown, plain)) && !LooksLikeSettings(e.Markdown))
            .Where(e => Normal(Markdig.Markdown.ToHtml(e.Markdown, PageReader.Pipeline)) != Normal(e.Html))
            .Select(e => e.Markdown);

        Assert.Equal([FullCaseFolding], different);
    }

    static bool HoldsHtml(MarkdownDocument document) =>
        document.Descendants<HtmlBlock>().Any() || document.Descendants<HtmlInline>().Any();

    static List<(string, string)> Read()
    {
        var text = File.ReadAllText(NpmPackages.PathOf("commonmark-spec", "spec.txt")).ReplaceLineEndings("\n");
        return [.. Example().Matches(text).Select(m => (Tabs(m.Groups["markdown"].Value), Tabs(m.Groups["html"].Value)))];
    }

    // The specification shows a tab as an arrow.
    static string Tabs(string text) => text.Replace('→', '\t');

    static string Normal(string html) => Blanks().Replace(html, " ").Replace("> ", ">", StringComparison.Ordinal).Replace(" <", "<", StringComparison.Ordinal).Trim();

    [GeneratedRegex(@"^`{32} example\n(?<markdown>.*?)^\.\n(?<html>.*?)^`{32}$", RegexOptions.Multiline | RegexOptions.Singleline | RegexOptions.CultureInvariant)]
    private static partial Regex Example();

    [GeneratedRegex(@"\s+", RegexOptions.CultureInvariant)]
    private static partial Regex Blanks();
}
