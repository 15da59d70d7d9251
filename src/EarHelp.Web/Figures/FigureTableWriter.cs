using System.Collections.Immutable;
using System.Globalization;
using EarHelp.Clinic.Figures;
using EarHelp.Web.Markup;

namespace EarHelp.Web.Figures;

/// <summary>A table whose last column draws its numbers, so that both are read in one place; the drawing says nothing that the numbers do not.</summary>
static class FigureTableWriter
{
    internal static void Write(HtmlWriter html, FigureWords words, FigureTable table)
    {
        html.Markup("<section><h2>"u8).Text(words.Heading(table.Kind)).Markup("</h2><p class=\"hint\">"u8).Text(words.Hint(table.Kind)).Markup("</p>"u8);
        if (table.Rows.IsEmpty)
        {
            html.Element("p"u8, words.Of["figures list empty"]).Markup("</section>"u8);
            return;
        }

        html.Markup("<table class=\"figures\"><thead><tr><th scope=\"col\">"u8).Text(words.Of["figures kind"]).Markup("</th>"u8);
        foreach (var column in table.Columns)
            html.Markup("<th scope=\"col\">"u8).Text(words.Column(column)).Markup("</th>"u8);
        html.Markup("<td aria-hidden=\"true\"></td></tr></thead><tbody>"u8);
        var longest = table.Rows.Max(Sum);
        foreach (var row in table.Rows)
        {
            html.Markup("<tr><th scope=\"row\">"u8).Text(words.Row(table.Kind, row)).Markup("</th>"u8);
            foreach (var (count, column) in row.Counts.Zip(table.Columns))
                html.Markup("<td"u8).Attribute("data-of"u8, table.Columns.Length > 1 ? words.Column(column) : null).Markup(">"u8).Text(words.Count(count)).Markup("</td>"u8);
            html.Markup("<td class=\"drawn\" aria-hidden=\"true\">"u8);
            Draw(html, row.Counts, longest);
            html.Markup("</td></tr>"u8);
        }

        html.Markup("</tbody></table></section>"u8);
    }

    static int Sum(FigureRow row) => row.Counts.Sum(c => c.Rounded ?? 0);

    /// <summary>The numbers of a row one after the other; hidden ones draw nothing.</summary>
    static void Draw(HtmlWriter html, ImmutableArray<ShownCount> counts, int longest)
    {
        if (longest == 0)
            return;
        html.Markup("<svg viewBox=\"0 0 100 10\" preserveAspectRatio=\"none\">"u8);
        var from = 0m;
        for (var column = 0; column < counts.Length; column++)
        {
            if (counts[column].Rounded is not { } number)
                continue;
            var width = 100m * number / longest;
            html.Markup("<rect y=\"0\" height=\"10\""u8).Attribute("class"u8, "part" + (column + 1).ToString(CultureInfo.InvariantCulture))
                .Attribute("x"u8, Coordinate(from)).Attribute("width"u8, Coordinate(width)).Markup("/>"u8);
            from += width;
        }

        html.Markup("</svg>"u8);
    }

    static string Coordinate(decimal at) => at.ToString("0.##", CultureInfo.InvariantCulture);
}
