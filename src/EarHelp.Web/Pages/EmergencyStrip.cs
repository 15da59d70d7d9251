using EarHelp.Web.Markup;

namespace EarHelp.Web.Pages;

/// <summary>The emergency number, the way without hearing and the way abroad: first on every page, in the same words.</summary>
static class EmergencyStrip
{
    internal static void Write(HtmlWriter html, Words words)
    {
        html.Markup("<aside class=\"strip\""u8).Attribute("aria-label"u8, words["channel emergency"]).Markup("><p>"u8);
        WriteCall(html, words, words["emergency line"]);
        html.Markup(" "u8).Text(words["emergency line without hearing"])
            .Markup(" <a href=\"/abroad\">"u8).Text(words["emergency line abroad"]).Markup("</a></p></aside>"u8);
    }

    /// <summary>The line with its number as a link, so that a telephone dials it.</summary>
    static void WriteCall(HtmlWriter html, Words words, string line)
    {
        var number = words.Edition.Clinic.EmergencyNumber;
        var at = line.IndexOf(number, StringComparison.Ordinal);
        if (at < 0 || number.Length == 0)
        {
            html.Text(line);
            return;
        }

        html.Text(line.AsSpan(0, at)).Markup("<a"u8).Attribute("href"u8, Telephone(number)).Markup("><b>"u8).Text(number)
            .Markup("</b></a>"u8).Text(line.AsSpan(at + number.Length));
    }

    static string Telephone(string number) => "tel:" + string.Concat(number.Where(c => char.IsAsciiDigit(c) || c == '+'));
}
