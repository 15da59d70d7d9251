using System.Buffers;
using EarHelp.Web.Look;
using EarHelp.Web.Markup;

namespace EarHelp.Web.Pages;

/// <summary>What stands around every page: the emergency strip in its one place, the letter's head, and the foot.</summary>
static class PageFrame
{
    const int TypicalPageBytes = 16 * 1024;

    static readonly byte[] Emblem = LookFile.Read("emblem.svg");

    /// <summary>A whole page.</summary>
    internal static ReadOnlyMemory<byte> Write(Words words, PageState state, Action<HtmlWriter> body)
    {
        var output = new ArrayBufferWriter<byte>(TypicalPageBytes);
        var html = new HtmlWriter(output);
        WriteHead(html, words, state);
        EmergencyStrip.Write(html, words);
        html.Markup("<main id=\"main\" class=\"sheet\">"u8);
        WriteLetterHead(html, words);
        body(html);
        html.Markup("</main>"u8);
        WriteFoot(html, words, state.Token);
        html.Markup("</body></html>"u8);
        return output.WrittenMemory;
    }

    /// <summary>The title as a browser shows it.</summary>
    internal static string TitleOf(Words words, string title) => $"{title} \u2013 {words["service name"]}";

    /// <param name="more">A script of this page beside the one of all pages, or null.</param>
    internal static void WriteHead(HtmlWriter html, Words words, PageState state, LookFile? more = null)
    {
        html.Markup("<!DOCTYPE html><html"u8).Attribute("lang"u8, words.Language)
            .Markup("><head><meta charset=\"utf-8\"><title>"u8).Text(TitleOf(words, state.Title))
            .Markup("</title><meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">"u8)
            .Markup("<meta name=\"robots\" content=\"noindex\"><link rel=\"icon\" href=\"data:image/svg+xml,%3Csvg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 48 48'%3E%3Cpath fill='none' stroke='%23263a80' stroke-width='4' stroke-linecap='round' d='M15 43C10 38 8 30 8 22C8 11 15 5 24 5S40 12 40 21C40 30 33 31 30 36C28 40 26 44 21 44M16 22C16 15 20 12 24 12S32 16 32 21C32 25 28 26 25 28'/%3E%3C/svg%3E\"><link rel=\"stylesheet\""u8)
            .Attribute("href"u8, LookFile.Sheet.Address).Markup("><script defer"u8).Attribute("src"u8, LookFile.Script.Address)
            .Markup("></script>"u8);
        if (more is not null)
            html.Markup("<script defer"u8).Attribute("src"u8, more.Address).Markup("></script>"u8);
        html.Markup("</head><body>"u8);
        if (state.HasQuestion)
            html.Markup("<a class=\"skip\" href=\"#now\">"u8).Text(words["skip to question"]).Markup("</a>"u8);
    }

    internal static void WriteLetterHead(HtmlWriter html, Words words)
    {
        html.Markup("<header class=\"head\"><div><p class=\"name\"><a href=\"/\">"u8).Text(words["service name"])
            .Markup("</a></p><p class=\"from\">"u8).Text(words.Edition.Clinic.Name).Markup(", "u8).Text(words.Edition.Clinic.Town).Markup("</p></div>"u8)
            .Markup(Emblem).Markup("</header>"u8);
        if (words.IsInvented)
            WriteMark(html, words["invented"], words["invented why"]);
        if (!words.IsSigned)
            WriteMark(html, words["demonstration"], words["demonstration why"]);
    }

    static void WriteMark(HtmlWriter html, string mark, string why) =>
        html.Markup("<p class=\"demo\"><b>"u8).Text(mark).Markup("</b> "u8).Text(why).Markup("</p>"u8);

    static void WriteFoot(HtmlWriter html, Words words, string? token)
    {
        html.Markup("<footer class=\"foot\"><p id=\"person\">"u8);
        ProseWriter.WriteLine(html, words.Letter.Line("clinic contact"));
        ProseWriter.WriteLine(html.Markup(" "u8), words.Letter.Line("clinic relay"));
        html.Markup("</p><p>"u8).Text(words["does not diagnose"]).Markup("</p><ul>"u8);
        WriteLink(html, "/about"u8, words["about"]);
        WriteLink(html, "/privacy"u8, words["privacy"]);
        WriteLink(html, "/accessibility"u8, words["accessibility"]);
        html.Markup("</ul>"u8);
        if (token is not null)
        {
            html.Markup("<ul>"u8);
            WriteLink(html, "/answers"u8, words["answers heading"]);
            WriteLink(html, "/start-over"u8, words["start over"]);
            WriteButton(html, "/link"u8, words["come back later"], token);
            WriteButton(html, "/leave"u8, words["leave now"], token);
            html.Markup("</ul>"u8);
        }

        html.Markup("</footer>"u8);
    }

    static void WriteLink(HtmlWriter html, ReadOnlySpan<byte> address, string text) =>
        html.Markup("<li><a href=\""u8).Markup(address).Markup("\">"u8).Text(text).Markup("</a></li>"u8);

    static void WriteButton(HtmlWriter html, ReadOnlySpan<byte> address, string text, string token)
    {
        html.Markup("<li><form method=\"post\" action=\""u8).Markup(address).Markup("\">"u8);
        FormFields.WriteToken(html, token);
        html.Markup("<button class=\"link\">"u8).Text(text).Markup("</button></form></li>"u8);
    }
}
