using System.Text;
using EarHelp.Web.Look;
using EarHelp.Web.Markup;

namespace EarHelp.Web.Pages;

/// <summary>The ear cut open, with numbered places and a list that names them.</summary>
static class EarDrawing
{
    const string TitleBlank = "{drawing title}";

    static readonly (byte[] Before, byte[] After) Section = Split(LookFile.Read("section.svg"));

    static readonly string[] Places = ["outer ear", "ear tube", "eardrum", "behind the drum", "inner ear"];

    internal static void Write(HtmlWriter html, Words words)
    {
        html.Markup("<figure class=\"drawing\">"u8).Markup(Section.Before).Text(words["drawing title"]).Markup(Section.After)
            .Markup("<figcaption><ol>"u8);
        foreach (var place in Places)
            html.Markup("<li>"u8).Text(words[place]).Markup("</li>"u8);
        html.Markup("</ol></figcaption></figure>"u8);
    }

    static (byte[] Before, byte[] After) Split(byte[] drawing)
    {
        var text = Encoding.UTF8.GetString(drawing);
        var at = text.IndexOf(TitleBlank, StringComparison.Ordinal);
        return (Encoding.UTF8.GetBytes(text[..at]), Encoding.UTF8.GetBytes(text[(at + TitleBlank.Length)..]));
    }
}
