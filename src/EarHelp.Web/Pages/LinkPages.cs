using EarHelp.Web.Markup;
using EarHelp.Web.Security;

namespace EarHelp.Web.Pages;

/// <summary>Leaving, coming back, starting over: pages with one decision each.</summary>
static class LinkPages
{
    /// <summary>Shows a private link once.</summary>
    /// <param name="keptUntil">The day until which it works, in words.</param>
    internal static ReadOnlyMemory<byte> WriteLink(Words words, string address, string keptUntil, string token) =>
        PageFrame.Write(words, new PageState(words["come back later"], token, HasQuestion: false), html =>
        {
            html.Element("h1"u8, words["come back link"]);
            html.Markup("<p id=\"link\" class=\"pen\">"u8).Text(address).Markup("</p>"u8);
            ProseWriter.Write(html, words.Letter.Page("return link"));
            html.Markup("<p>"u8).Text(words["link once"]).Markup(" "u8).Text(words.Letter.Text("kept until", ("date", keptUntil))).Markup("</p><div class=\"row\">"u8)
                .Markup("<button type=\"button\" data-do=\"copy\" hidden>"u8).Text(words["copy link"]).Markup("</button>"u8)
                .Markup("<a class=\"button quiet\" href=\"/letter\">"u8).Text(words["back"]).Markup("</a></div>"u8);
            LetterPage.WriteStatus(html, words);
        });

    /// <summary>Opens nothing by itself: a program that follows links must not use the link up.</summary>
    internal static ReadOnlyMemory<byte> WriteBack(Words words, string secret, string token) =>
        PageFrame.Write(words, new PageState(words["open conversation"], null, HasQuestion: false), html =>
        {
            html.Element("h1"u8, words["open conversation"]);
            ProseWriter.Write(html, words.Letter.Page("return page"));
            html.Markup("<form method=\"post\" action=\"/back\">"u8);
            FormFields.WriteToken(html, token);
            html.Markup("<input type=\"hidden\" name=\"secret\""u8).Attribute("value"u8, secret).Markup("><button>"u8)
                .Text(words["open conversation"]).Markup("</button></form>"u8);
        });

    internal static ReadOnlyMemory<byte> WriteStartOver(Words words, string token, string turn) =>
        PageFrame.Write(words, new PageState(words["start over"], token, HasQuestion: false), html =>
        {
            html.Element("h1"u8, words["start over"]);
            html.Element("p"u8, words["start over question"]);
            html.Markup("<form method=\"post\" action=\"/start-over\"><div class=\"row\">"u8);
            FormFields.WriteToken(html, token);
            FormFields.WriteTurn(html, turn);
            html.Markup("<button>"u8).Text(words["start over yes"]).Markup("</button><a class=\"button quiet\" href=\"/letter\">"u8)
                .Text(words["start over no"]).Markup("</a></div></form>"u8);
        });

    internal static ReadOnlyMemory<byte> WriteLeft(Words words) =>
        PageFrame.Write(words, new PageState(words["leave now"], null, HasQuestion: false), html =>
        {
            html.Element("h1"u8, words["left"]);
            html.Markup("<p><a class=\"button quiet\" href=\"/\">"u8).Text(words["start"]).Markup("</a></p>"u8);
        });
}
