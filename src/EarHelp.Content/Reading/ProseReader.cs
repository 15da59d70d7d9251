using System.Buffers;
using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Texts;
using Markdig;
using Markdig.Syntax;
using Markdig.Syntax.Inlines;
using Inline = EarHelp.Triage.Texts.Inline;
using MarkdownBlock = Markdig.Syntax.Block;

namespace EarHelp.Content.Reading;

/// <summary>Turns Markdown into a text that every face can render: paragraphs, lists, bold, links, blanks.</summary>
sealed class ProseReader(SourceText source, BlankNames blanks, ProblemList problems)
{
    // Sections begin with ##, and the parts of a section with ###.
    const int LowestHeading = 3;

    // A line without one of these, and that begins with a letter, is the same in Markdown as in plain text.
    static readonly SearchValues<char> Marks = SearchValues.Create("*_`[]<>&\\!");

    static readonly MarkdownPipeline CellPipeline = new MarkdownPipelineBuilder().UsePreciseSourceLocation().DisableHtml().Build();

    public Prose Read(IEnumerable<PagePart> parts, SourceSpot spot)
    {
        var blocks = ImmutableArray.CreateBuilder<Triage.Texts.Block>();
        foreach (var part in parts)
        {
            if (part is PagePart.Text text)
                Add(text.Content, blocks);
            else if (part is PagePart.Heading heading)
            {
                if (heading.Level > LowestHeading)
                    problems.Add(Codes.UnsupportedMarkdown, heading.Spot, $"The heading \"{heading.Words}\" has {heading.Level} marks, and a text has headings of {LowestHeading} at most.", "Write ### before it, or make it a paragraph.");
                blocks.Add(new Triage.Texts.Block.Heading(heading.Level, [new Inline.Run(heading.Words, false, false)]));
            }
        }

        return new Prose(blocks.ToImmutable(), spot);
    }

    /// <summary>The text of a cell, or of any piece of one line.</summary>
    public Prose ReadCell(PageCell cell) => cell.IsNothing ? Prose.Empty : ReadLine(cell.Raw, cell.Offset, cell.Spot);

    public Prose ReadLine(string raw, int offset, SourceSpot spot)
    {
        if (raw.Length > 0 && char.IsLetter(raw[0]) && raw.AsSpan().IndexOfAny(Marks) < 0)
        {
            var plain = ImmutableArray.CreateBuilder<Inline>();
            new RunReader(raw, at => source.SpotAt(offset + at), false, false, blanks, problems).Read(plain);
            return new Prose([new Triage.Texts.Block.Paragraph(plain.ToImmutable())], spot);
        }

        // A backslash keeps a mark at the start from making a list or a heading; it takes no place in the text.
        var guarded = raw.Length > 0 && "#>-+*=~".Contains(raw[0], StringComparison.Ordinal) && !raw.StartsWith("**", StringComparison.Ordinal) ? "\\" + raw : raw;
        var document = Markdown.Parse(guarded, CellPipeline);
        if (document is [ParagraphBlock paragraph])
            return new Prose([new Triage.Texts.Block.Paragraph(Inlines(paragraph, offset - (guarded.Length - raw.Length)))], spot);
        if (document.Count > 0)
            problems.Add(Codes.UnsupportedMarkdown, spot, "The cell begins like a list, a heading or a quote.", "Begin it with a word, or put a backslash before the mark.");
        return Prose.Empty;
    }

    void Add(MarkdownBlock block, ImmutableArray<Triage.Texts.Block>.Builder blocks)
    {
        switch (block)
        {
            case ParagraphBlock { Inline: { FirstChild: LinkInline { IsImage: true } image } line } when line.FirstChild == line.LastChild:
                AddPicture(image, blocks);
                break;
            case ParagraphBlock paragraph:
                if (Inlines(paragraph, 0) is { IsEmpty: false } inlines)
                    blocks.Add(new Triage.Texts.Block.Paragraph(inlines));
                break;
            case ListBlock list:
                blocks.Add(new Triage.Texts.Block.Items([.. list.OfType<ListItemBlock>().Select(Entry)], list.IsOrdered));
                break;
            case LinkReferenceDefinitionGroup or BlankLineBlock:
                break;
            default:
                Refuse(block, block is HtmlBlock ? "HTML" : "a quote, a line or a block of code");
                break;
        }
    }

    /// <summary>A drawing of the pages stands alone in its paragraph: <c>![what it shows](picture:ear)</c>.</summary>
    void AddPicture(LinkInline image, ImmutableArray<Triage.Texts.Block>.Builder blocks)
    {
        const string Scheme = "picture:";
        var address = Uri.UnescapeDataString(image.Url ?? "");
        var name = address.StartsWith(Scheme, StringComparison.Ordinal) ? address[Scheme.Length..].Replace('-', ' ') : null;
        var words = new InlineReader(source, 0, blanks, problems).Read(image);
        if (name is null || words.IsEmpty)
            problems.Add(Codes.UnsupportedMarkdown, source.SpotAt(image.Span.Start), "A picture from elsewhere, or without words, stands in the words.", "Name a drawing of the pages and say what it shows: ![what it shows](picture:ear).");
        else if (!Pictures.All.Contains(name))
            problems.AddUnknown(Codes.UnknownName, source.SpotAt(image.Span.Start), "picture", name, Pictures.All);
        else
            blocks.Add(new Triage.Texts.Block.Picture(name, words));
    }

    ImmutableArray<Inline> Entry(ListItemBlock item)
    {
        if (item.Count == 0)
            return [];
        if (item is [ParagraphBlock paragraph])
            return Inlines(paragraph, 0);
        Refuse(item.FirstOrDefault(b => b is not ParagraphBlock) ?? item[^1], "a second paragraph or a list inside a list entry");
        return item[0] is ParagraphBlock first ? Inlines(first, 0) : [];
    }

    void Refuse(MarkdownBlock block, string what) => problems.Add(Codes.UnsupportedMarkdown, source.SpotAt(block.Span.Start),
        $"Here stands {what}; words consist of paragraphs and flat lists.", "Write it as a paragraph or as entries of one list.");

    ImmutableArray<Inline> Inlines(ParagraphBlock paragraph, int shift) => new InlineReader(source, shift, blanks, problems).Read(paragraph.Inline);
}
