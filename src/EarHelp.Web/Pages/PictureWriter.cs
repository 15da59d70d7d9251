using System.Collections.Frozen;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Texts;
using EarHelp.Web.Look;
using EarHelp.Web.Markup;

namespace EarHelp.Web.Pages;

/// <summary>Writes a drawing into a page, with the words that say the same below it: read by everyone, not only by a screen reader.</summary>
static class PictureWriter
{
    static readonly FrozenDictionary<string, byte[]> Drawings =
        Pictures.All.ToFrozenDictionary(p => p, p => LookFile.Read($"picture-{p.Replace(' ', '-')}.svg"), StringComparer.Ordinal);

    internal static void Write(HtmlWriter html, Block.Picture picture)
    {
        html.Markup("<figure class=\"drawing picture\">"u8).Markup(Drawings[picture.Name]).Markup("<figcaption>"u8);
        ProseWriter.WriteLine(html, new Prose([new Block.Paragraph(picture.Words)], default));
        html.Markup("</figcaption></figure>"u8);
    }
}
