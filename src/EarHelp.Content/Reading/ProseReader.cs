using System.Collections.Immutable;
using System.Text;
using EarHelp.Content.Problems;
using EarHelp.Triage.Texts;
using Markdig;
using Markdig.Syntax;
using Markdig.Syntax.Inlines;
using Block = EarHelp.Triage.Texts.Block;
using Inline = EarHelp.Triage.Texts.Inline;

namespace EarHelp.Content.Reading;

/// <summary>Reads Markdown as a text that any face can show.</summary>
static class ProseReader
{
    static readonly string[] Schemes = ["https:", "tel:", "mailto:", "sms:", "/"];

    static readonly MarkdownPipeline Pipeline = new MarkdownPipelineBuilder().UsePreciseSourceLocation().Build();

    public static Prose Read(IEnumerable<PagePart.Passage> texts, ProblemList problems)
    {
        var blocks = ImmutableArray.CreateBuilder<Block>();
        SourceSpot? spot = null;
        foreach (var text in texts)
        {
            spot ??= text.Spot;
            foreach (var block in Markdown.Parse(text.Source, Pipeline))
                AddBlock(block, text.Spot, blocks, problems);
        }

        return new Prose(blocks.ToImmutable(), spot ?? default);
    }

    public static Prose Read(string source, SourceSpot spot, ProblemList problems) => Read([new PagePart.Passage(source, spot)], problems);

    static void AddBlock(MarkdownObject block, SourceSpot spot, ImmutableArray<Block>.Builder blocks, ProblemList problems)
    {
        switch (block)
        {
            case ParagraphBlock paragraph:
                blocks.Add(new Block.Paragraph(Inlines(paragraph.Inline, spot, problems)));
                break;
            case HeadingBlock heading:
                blocks.Add(new Block.Heading(heading.Level, Inlines(heading.Inline, spot, problems)));
                break;
            case ListBlock list:
                blocks.Add(new Block.Items([.. list.OfType<ListItemBlock>().Select(i => ItemOf(i, spot, problems))], list.IsOrdered));
                break;
            case QuoteBlock quote:
                foreach (var inner in quote)
                    AddBlock(inner, spot, blocks, problems);
                break;
            case HtmlBlock:
                problems.Add(Codes.RawHtml, spot, "The text holds raw HTML.", "Use plain Markdown: paragraphs, lists, bold, links.");
                break;
            default:
                break;
        }
    }

    static ImmutableArray<Inline> ItemOf(ListItemBlock item, SourceSpot spot, ProblemList problems) =>
        [.. item.OfType<ParagraphBlock>().SelectMany(p => Inlines(p.Inline, spot, problems))];

    static ImmutableArray<Inline> Inlines(ContainerInline? container, SourceSpot spot, ProblemList problems)
    {
        var made = ImmutableArray.CreateBuilder<Inline>();
        var pending = new StringBuilder();
        if (container is not null)
            Walk(container, false, false);
        Flush(false, false);
        return made.ToImmutable();

        void Walk(ContainerInline of, bool isStrong, bool isEmphasised)
        {
            foreach (var inline in of)
            {
                switch (inline)
                {
                    case LiteralInline literal:
                        pending.Append(literal.Content.ToString());
                        break;
                    case LineBreakInline:
                        pending.Append(' ');
                        break;
                    case CodeInline code:
                        pending.Append(code.Content);
                        break;
                    case HtmlEntityInline entity:
                        pending.Append(entity.Transcoded.ToString());
                        break;
                    case EmphasisInline emphasis:
                        Flush(isStrong, isEmphasised);
                        var (strong, emphasised) = (isStrong || emphasis.DelimiterCount == 2, isEmphasised || emphasis.DelimiterCount == 1);
                        Walk(emphasis, strong, emphasised);
                        Flush(strong, emphasised);
                        break;
                    case LinkInline link:
                        Flush(isStrong, isEmphasised);
                        made.Add(LinkOf(link));
                        break;
                    case AutolinkInline auto:
                        Flush(isStrong, isEmphasised);
                        made.Add(Checked(auto.Url, auto.IsEmail ? "mailto:" + auto.Url : auto.Url));
                        break;
                    case HtmlInline:
                        problems.Add(Codes.RawHtml, spot, "The text holds raw HTML.", "Use plain Markdown: paragraphs, lists, bold, links.");
                        break;
                    case ContainerInline other:
                        Walk(other, isStrong, isEmphasised);
                        break;
                    default:
                        break;
                }
            }
        }

        Inline.Link LinkOf(LinkInline link)
        {
            var text = string.Concat(link.Descendants<LiteralInline>().Select(l => l.Content.ToString()));
            if (link.IsImage)
                problems.Add(Codes.BadLink, spot, "The text holds a picture.", "Describe it in words; pictures belong to the pages.");
            return Checked(text, Uri.UnescapeDataString(link.Url ?? string.Empty));
        }

        Inline.Link Checked(string text, string address)
        {
            if (!Schemes.Any(s => address.StartsWith(s, StringComparison.Ordinal)))
                problems.Add(Codes.BadLink, spot, $"The link \"{address}\" is not allowed.", "Links begin with https:, tel:, mailto: or sms:.");
            return new Inline.Link(text, address);
        }

        void Flush(bool isStrong, bool isEmphasised)
        {
            if (pending.Length == 0)
                return;
            made.AddRange(BlankReader.Read(pending.ToString(), isStrong, isEmphasised, spot, problems));
            pending.Clear();
        }
    }
}
