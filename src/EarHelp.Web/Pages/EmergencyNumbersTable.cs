using EarHelp.Web.Markup;

namespace EarHelp.Web.Pages;

/// <summary>What to call in other countries, with the sentence for every country that is not listed.</summary>
static class EmergencyNumbersTable
{
    internal static void Write(HtmlWriter html, Words words)
    {
        html.Markup("<h2>"u8).Text(words["emergency line abroad heading"]).Markup("</h2>"u8);
        ProseWriter.Write(html, words.Edition.EmergencyNumbers.Elsewhere);
        html.Markup("<table><thead><tr><th scope=\"col\">"u8).Text(words["emergency country"])
            .Markup("</th><th scope=\"col\">"u8).Text(words["emergency call"])
            .Markup("</th><th scope=\"col\">"u8).Text(words["emergency without hearing heading"]).Markup("</th></tr></thead><tbody>"u8);
        foreach (var country in words.Edition.EmergencyNumbers.Countries)
        {
            html.Markup("<tr><th scope=\"row\">"u8).Text(country.Country).Markup("</th><td>"u8).Text(country.Call)
                .Markup("</td><td>"u8).Text(country.WithoutHearing).Markup("</td></tr>"u8);
        }

        html.Markup("</tbody></table>"u8);
    }
}
