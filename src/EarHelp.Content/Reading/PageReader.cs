using System.Collections.Immutable;
using System.Text;
using EarHelp.Content.Problems;
using EarHelp.Content.Sources;
using EarHelp.Triage.Texts;
using Markdig;
using Markdig.Extensions.Tables;
using Markdig.Extensions.Yaml;
using Markdig.Syntax;

namespace EarHelp.Content.Reading;

/// <summary>Reads a file as a page. Never throws, whatever stands in it.</summary>
static class PageReader
{
    static readonly UTF8Encoding Strict = new(false, true);

    static readonly MarkdownPipeline Pipeline =
        new MarkdownPipelineBuilder().UseYamlFrontMatter().UsePipeTables().UsePreciseSourceLocation().DisableHtml().Build();

    public static Page Read(SourceFile file, ProblemList problems)
    {
        string text;
        try
        {
            text = Normalise(Strict.GetString(file.Bytes.Span));
        }
        catch (ArgumentException)
        {
            problems.Add(Codes.NotText, new SourceSpot(file.Path, 1, 1), "The file is not UTF-8 text.", "Save it as plain text in UTF-8.");
            return new Page(file.Path, [], []);
        }

        var lines = new Lines(file.Path, text);
        var document = Markdown.Parse(text, Pipeline);
        var settings = document.FirstOrDefault() is YamlFrontMatterBlock yaml
            ? SettingsReader.Read(file.Path, yaml.Lines.ToString(), yaml.Line + 1, problems)
            : [];
        return new Page(file.Path, settings, Parts(document, lines, problems));
    }

    /// <summary>What word processors leave behind and what has only one meaning: byte order mark, line ends, hard blanks, tabs in tables.</summary>
    static string Normalise(string text) =>
        text.TrimStart('\uFEFF').Replace("\r\n", "\n", StringComparison.Ordinal).Replace('\r', '\n').Replace('\u00A0', ' ').Replace('\u202F', ' ');

    static ImmutableArray<PagePart> Parts(MarkdownDocument document, Lines lines, ProblemList problems)
    {
        var parts = ImmutableArray.CreateBuilder<PagePart>();
        var (title, titleSpot) = (string.Empty, lines.SpotOf(0));
        foreach (var block in document)
        {
            var spot = lines.SpotOf(block.Span.Start);
            switch (block)
            {
                case HeadingBlock heading:
                    (title, titleSpot) = (lines.Slice(block.Span.Start, block.Span.End).TrimStart('#').Trim().TrimEnd('#').Trim(), spot);
                    parts.Add(new PagePart.Heading(heading.Level, title, spot));
                    break;
                case Table table:
                    parts.Add(TableReader.Read(table, title, titleSpot, lines, problems));
                    break;
                case ParagraphBlock or ListBlock or QuoteBlock:
                    parts.Add(new PagePart.Passage(lines.Slice(block.Span.Start, block.Span.End), spot));
                    break;
                default:
                    break;
            }
        }

        return parts.ToImmutable();
    }
}
