using EarHelp.Triage.Texts;
using EarHelp.Web.Markup;

namespace EarHelp.Web.Pages;

/// <summary>A page that says something and asks nothing.</summary>
static class TextPage
{
    /// <summary>A page of the content, e.g. privacy.</summary>
    /// <param name="titleKey">Key of its title among the interface's texts.</param>
    internal static ReadOnlyMemory<byte> Write(Words words, string titleKey, string pageKey, string? token) =>
        PageFrame.Write(words, new PageState(words[titleKey], token, HasQuestion: false), html =>
        {
            html.Element("h1"u8, words[titleKey]);
            ProseWriter.Write(html, words.Letter.Page(pageKey));
        });

    internal static ReadOnlyMemory<byte> WriteAbroad(Words words, string? token) =>
        PageFrame.Write(words, new PageState(words["emergency line abroad heading"], token, HasQuestion: false), html =>
        {
            html.Element("h1"u8, words["channel emergency"]);
            html.Element("p"u8, $"{words["emergency line"]} {words["emergency line without hearing"]}");
            html.Element("p"u8, words["emergency line nobody near"]);
            EmergencyNumbersTable.Write(html, words);
        });

    /// <summary>Something went wrong: what, the emergency text, and the way on.</summary>
    internal static ReadOnlyMemory<byte> WriteFault(Words words, Fault fault) =>
        PageFrame.Write(words, new PageState(words[fault.Heading], null, HasQuestion: false), html =>
        {
            html.Element("h1"u8, words[fault.Heading]);
            var page = fault.Text is null ? Prose.Empty : words.Letter.Page(fault.Text);
            if (!page.IsEmpty)
                ProseWriter.Write(html, page);
            else if (fault.Text is not null)
                html.Element("p"u8, words[fault.Text]);
            html.Element("p"u8, $"{words["emergency line"]} {words["emergency line without hearing"]}");
            html.Markup("<p><a class=\"button quiet\" href=\"/\">"u8).Text(words["back"]).Markup("</a></p>"u8);
        });

    /// <summary>A kept conversation cannot go on now: what to do, and the way to another one.</summary>
    /// <param name="token">Null if nothing says which browser this is: then there is nothing to leave.</param>
    internal static ReadOnlyMemory<byte> WriteHeld(Words words, string? token) =>
        PageFrame.Write(words, new PageState(words["something broke"], null, HasQuestion: false), html =>
        {
            html.Element("h1"u8, words["something broke"]);
            ProseWriter.Write(html, words.Letter.Page("held"));
            if (token is null)
                return;
            html.Markup("<form method=\"post\" action=\"/leave\">"u8);
            FormFields.WriteToken(html, token);
            html.Markup("<button class=\"quiet\">"u8).Text(words["leave now"]).Markup("</button></form>"u8);
        });
}
