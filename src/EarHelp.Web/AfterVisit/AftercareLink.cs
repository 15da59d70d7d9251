using EarHelp.Web.Markup;
using EarHelp.Web.Pages;

namespace EarHelp.Web.AfterVisit;

/// <summary>The way from the questions, and from their outcome, to the plan after the visit.</summary>
static class AftercareLink
{
    internal static void Write(HtmlWriter html, Words words, bool isAfterVisit)
    {
        if (isAfterVisit)
        {
            html.Markup("<p class=\"note\">"u8).Text(words["aftercare open hint"]).Markup(" <a"u8).Attribute("href"u8, AftercarePages.Address).Markup(">"u8)
                .Text(words["aftercare open"]).Markup("</a></p>"u8);
        }
    }
}
