using System.Collections.Immutable;
using System.Diagnostics;
using EarHelp.Triage.Texts;
using EarHelp.Web.Markup;

namespace EarHelp.Web.Pages;

/// <summary>Renders a text whose blanks are filled as HTML.</summary>
static class ProseWriter
{
    /// <param name="headings">Tag of a heading inside the text: one below the heading that stands over it.</param>
    internal static void Write(HtmlWriter html, Prose prose, HeadingTag headings = HeadingTag.Third)
    {
        if (prose.IsEmpty)
            return;
        foreach (var block in prose.Blocks)
            Write(html, block, headings);
    }

    /// <summary>All of a text in one line, for a heading, a legend or a label; its later blocks stay in that line.</summary>
    internal static void WriteLine(HtmlWriter html, Prose prose)
    {
        if (prose.IsEmpty)
            return;
        var isFirst = true;
        foreach (var line in prose.Blocks.SelectMany(LinesOf))
        {
            if (!isFirst)
                html.Markup(" "u8);
            Write(html, line);
            isFirst = false;
        }
    }

    static IEnumerable<ImmutableArray<Inline>> LinesOf(Block block) => block switch
    {
        Block.Paragraph paragraph => [paragraph.Inlines],
        Block.Heading heading => [heading.Inlines],
        Block.Items items => items.Entries,
        Block.Picture picture => [picture.Words],
        _ => throw new UnreachableException(),
    };

    static void Write(HtmlWriter html, Block block, HeadingTag headings)
    {
        switch (block)
        {
            case Block.Paragraph paragraph:
                Write(html.Markup("<p>"u8), paragraph.Inlines).Markup("</p>"u8);
                break;
            case Block.Heading heading:
                html.Markup("<h"u8).Number((int)headings).Markup(">"u8);
                Write(html, heading.Inlines).Markup("</h"u8).Number((int)headings).Markup(">"u8);
                break;
            case Block.Picture picture:
                PictureWriter.Write(html, picture);
                break;
            case Block.Items items:
                html.Markup(items.IsNumbered ? "<ol>"u8 : "<ul>"u8);
                foreach (var entry in items.Entries)
                    Write(html.Markup("<li>"u8), entry).Markup("</li>"u8);
                html.Markup(items.IsNumbered ? "</ol>"u8 : "</ul>"u8);
                break;
            default:
                throw new UnreachableException();
        }
    }

    static HtmlWriter Write(HtmlWriter html, ImmutableArray<Inline> inlines)
    {
        foreach (var inline in inlines)
        {
            switch (inline)
            {
                case Inline.Run run:
                    html.Markup(run.IsStrong ? "<strong>"u8 : default).Markup(run.IsEmphasised ? "<em>"u8 : default).Text(run.Text)
                        .Markup(run.IsEmphasised ? "</em>"u8 : default).Markup(run.IsStrong ? "</strong>"u8 : default);
                    break;
                case Inline.Link link:
                    html.Markup("<a"u8).Attribute("href"u8, link.Address).Markup(">"u8).Text(link.Text).Markup("</a>"u8);
                    break;
                default:
                    throw new UnreachableException("A text is shown with its blanks filled.");
            }
        }

        return html;
    }
}
