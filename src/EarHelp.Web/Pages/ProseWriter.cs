using System.Collections.Immutable;
using System.Diagnostics;
using EarHelp.Triage.Texts;
using EarHelp.Web.Markup;

namespace EarHelp.Web.Pages;

/// <summary>Renders what an author wrote as HTML.</summary>
static class ProseWriter
{
    internal static void Write(HtmlWriter html, Prose prose, Words words)
    {
        if (prose.IsEmpty)
            return;
        foreach (var block in prose.Blocks)
            Write(html, block, words);
    }

    static void Write(HtmlWriter html, Block block, Words words)
    {
        switch (block)
        {
            case Block.Paragraph paragraph:
                Write(html.Markup("<p>"u8), paragraph.Inlines, words).Markup("</p>"u8);
                break;
            case Block.Heading heading:
                Write(html.Markup("<h3>"u8), heading.Inlines, words).Markup("</h3>"u8);
                break;
            case Block.Items items:
                html.Markup(items.IsNumbered ? "<ol>"u8 : "<ul>"u8);
                foreach (var entry in items.Entries)
                    Write(html.Markup("<li>"u8), entry, words).Markup("</li>"u8);
                html.Markup(items.IsNumbered ? "</ol>"u8 : "</ul>"u8);
                break;
            default:
                throw new UnreachableException();
        }
    }

    internal static HtmlWriter Write(HtmlWriter html, ImmutableArray<Inline> inlines, Words words)
    {
        foreach (var inline in inlines)
        {
            switch (inline)
            {
                case Inline.Run run:
                    Write(html, run.Text, run.IsStrong, run.IsEmphasised);
                    break;
                case Inline.Link link:
                    html.Markup("<a"u8).Attribute("href"u8, words.Fill(link.Address)).Markup(">"u8).Text(words.Fill(link.Text)).Markup("</a>"u8);
                    break;
                case Inline.Blank blank:
                    Write(html, words.Blank(blank.Name) ?? blank.Name, blank.IsStrong, isEmphasised: false);
                    break;
                case Inline.Either either:
                    Write(html, words.AboutSelf ? either.Self : either.Other, either.IsStrong, isEmphasised: false);
                    break;
                default:
                    throw new UnreachableException();
            }
        }

        return html;
    }

    static void Write(HtmlWriter html, string text, bool isStrong, bool isEmphasised)
    {
        html.Markup(isStrong ? "<strong>"u8 : default).Markup(isEmphasised ? "<em>"u8 : default).Text(text);
        html.Markup(isEmphasised ? "</em>"u8 : default).Markup(isStrong ? "</strong>"u8 : default);
    }
}
