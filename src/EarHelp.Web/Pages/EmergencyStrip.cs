using EarHelp.Web.Markup;

namespace EarHelp.Web.Pages;

/// <summary>The emergency number, the way without hearing and the way abroad: first on every page, in the same words.</summary>
static class EmergencyStrip
{
    internal static void Write(HtmlWriter html, Words words)
    {
        html.Markup("<aside class=\"strip\""u8).Attribute("aria-label"u8, words["channel emergency"]).Markup("><p>"u8);
        ProseWriter.WriteLine(html, words.Letter.Line("emergency line"));
        html.Markup(" "u8).Text(words["emergency line without hearing"])
            .Markup(" <a href=\"/abroad\">"u8).Text(words["emergency line abroad"]).Markup("</a></p></aside>"u8);
    }
}
