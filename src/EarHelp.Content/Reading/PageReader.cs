using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Content.Sources;
using Markdig;
using Markdig.Extensions.Tables;
using Markdig.Extensions.Yaml;
using Markdig.Syntax;
using MarkdownBlock = Markdig.Syntax.Block;

namespace EarHelp.Content.Reading;

/// <summary>Reads a file into headings, tables and text. Never throws on any file.</summary>
static class PageReader
{
    /// <summary>CommonMark with pipe tables and settings at the top, without HTML. Shared: a built pipeline does not change.</summary>
    public static MarkdownPipeline Pipeline { get; } = new MarkdownPipelineBuilder()
        .UseYamlFrontMatter().UsePipeTables().UsePreciseSourceLocation().DisableHtml().Build();

    public static Page Read(SourceFile file, ProblemList problems)
    {
        var source = SourceText.Read(file, problems);
        if (string.IsNullOrWhiteSpace(source.Text))
        {
            problems.Add(Codes.EmptyFile, source.SpotAt(0), "The file is empty.", "Bring back what stood in it, or delete the file if nothing is meant to stand there.");
            return new Page(source, Settings.None(source), []) { IsEmpty = true };
        }

        var tables = TableFinder.Find(source);
        try
        {
            return Read(Markdown.Parse(TableFinder.Without(source, tables), Pipeline), tables, source, problems);
        }
        catch (ArgumentException)
        {
            // Markdig's answer to nesting without end.
            problems.Add(Codes.TooDeeplyNested, source.SpotAt(0), "Lists, quotes or brackets are nested too deeply.", "Keep lists flat.");
            return new Page(source, Settings.None(source), []);
        }
    }

    static Page Read(MarkdownDocument document, ImmutableArray<(int First, int Last)> tables, SourceText source, ProblemList problems)
    {
        var settings = Settings.None(source);
        var parts = ImmutableArray.CreateBuilder<PagePart>();
        var above = new PagePart.Heading(0, "", source.SpotAt(0));
        var next = 0;
        foreach (var block in document)
        {
            TakeTables(source.LineOf(block.Span.Start));
            switch (block)
            {
                case YamlFrontMatterBlock yaml:
                    settings = Settings.Read(yaml.Lines.ToString(), source, problems);
                    break;
                case HeadingBlock heading:
                    above = new PagePart.Heading(heading.Level, Written(heading, source), source.SpotAt(heading.Span.Start));
                    parts.Add(above);
                    break;
                case Table table:
                    AddTable(source.LineOf(table.Span.Start), LastLine(table, source));
                    break;
                default:
                    ReportBrokenTable(block, source, problems);
                    parts.Add(new PagePart.Text(block, source.SpotAt(block.Span.Start)));
                    break;
            }
        }

        TakeTables(int.MaxValue);
        ReportLongDashes(source, settings, problems);
        return new Page(source, settings, parts.ToImmutable());

        void TakeTables(int before)
        {
            for (; next < tables.Length && tables[next].First < before; next++)
                AddTable(tables[next].First, tables[next].Last);
        }

        void AddTable(int first, int last) =>
            parts.Add(new PagePart.Table(TableLines.Read(source, first, last, above.Words, above.Spot, problems)));
    }

    // A heading's words as written, without its marks.
    static string Written(HeadingBlock heading, SourceText source) => heading.Span.IsEmpty || heading.Span.End >= source.Text.Length
        ? ""
        : source.Text.Substring(heading.Span.Start, heading.Span.Length).Split('\n')[0].Trim().TrimStart('#').TrimEnd('#').Trim();

    // To the next empty line: a row that lost its bars still belongs to the table.
    static int LastLine(Table table, SourceText source)
    {
        var line = source.LineOf(table.Span.End);
        while (line + 1 < source.LineCount && source.LineAt(line + 1).TrimStart().StartsWith('|'))
            line++;
        return line;
    }

    static void ReportBrokenTable(MarkdownBlock block, SourceText source, ProblemList problems)
    {
        if (block is not ParagraphBlock paragraph || paragraph.Span.IsEmpty)
            return;
        for (var line = source.LineOf(paragraph.Span.Start); line <= source.LineOf(paragraph.Span.End); line++)
        {
            if (!source.LineAt(line).TrimStart().StartsWith('|'))
                continue;
            problems.Add(Codes.NotATable, source.SpotAt(source.StartOf(line)), "This looks like a table and is not one.",
                "Leave an empty line above it, and write a line |---|---| with as many parts as there are headings below the headings; use plain hyphens.");
            return;
        }
    }

    static void ReportLongDashes(SourceText source, Settings settings, ProblemList problems)
    {
        var first = source.LineAt(0).Trim();
        if (settings.All.IsEmpty && first.Length > 0 && first.All(c => c is '-' or '\u2013' or '\u2014'))
            problems.Add(Codes.SettingsUnreadable, source.SpotAt(0), "The settings at the top are not read.", "Begin and end them with a line of exactly three plain hyphens: ---");
    }
}
