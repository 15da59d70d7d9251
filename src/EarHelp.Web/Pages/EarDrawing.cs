using System.Collections.Immutable;
using System.Text;
using EarHelp.Triage.Editions;
using EarHelp.Web.Look;
using EarHelp.Web.Markup;

namespace EarHelp.Web.Pages;

/// <summary>The ear cut open, with numbered places: to be looked at beside their names, or to be pointed at.</summary>
static class EarDrawing
{
    static readonly byte[][] Section = Split(LookFile.Read("section.svg"), "{drawing role}", "{drawing title}", "</svg>");

    /// <summary>Where each place's number stands, and the outline of the place itself.</summary>
    static readonly (int X, int Y, string Outline)[] Spots =
    [
        (30, 30, "M60 20H130L150 120L130 240L80 256L40 150Z"),
        (214, 282, "M150 126H268V200H150Z"),
        (260, 282, "M268 118H294V208H268Z"),
        (312, 282, "M294 104H346V206H294Z"),
        (490, 184, "M346 60H446V182H346Z"),
    ];

    internal static void Write(HtmlWriter html, Words words)
    {
        Open(html, words, "img"u8);
        for (var i = 0; i < Spots.Length; i++)
            WriteNumber(html, i);
        Close(html);
        html.Markup("<figcaption><ol>"u8);
        foreach (var place in EarPlaces.All)
            html.Markup("<li>"u8).Text(words[place]).Markup("</li>"u8);
        html.Markup("</ol></figcaption></figure>"u8);
    }

    /// <summary>Each place in question is a link to its own entries of the list below, so that pointing needs no script.</summary>
    internal static void WriteToPointAt(HtmlWriter html, Words words, ImmutableArray<string> places)
    {
        Open(html, words, "group"u8);
        for (var i = 0; i < Spots.Length; i++)
        {
            if (!places.Contains(EarPlaces.All[i]))
                continue;
            html.Markup("<a href=\"#place-"u8).Number(i + 1).Markup("\""u8).Attribute("aria-label"u8, $"{i + 1} {words[EarPlaces.All[i]]}")
                .Markup("><path class=\"spot\""u8).Attribute("d"u8, Spots[i].Outline).Markup("/>"u8);
            WriteNumber(html, i);
            html.Markup("</a>"u8);
        }

        Close(html);
        html.Markup("<figcaption>"u8).Text(words["point at the ear"]).Markup("</figcaption></figure>"u8);
    }

    static void Open(HtmlWriter html, Words words, ReadOnlySpan<byte> role) =>
        html.Markup("<figure class=\"drawing\">"u8).Markup(Section[0]).Markup(role).Markup(Section[1]).Text(words["drawing title"]).Markup(Section[2]);

    static void Close(HtmlWriter html) => html.Markup("</svg>"u8);

    static void WriteNumber(HtmlWriter html, int spot)
    {
        var (x, y, _) = Spots[spot];
        html.Markup("<text x=\""u8).Number(x).Markup("\" y=\""u8).Number(y).Markup("\">"u8).Number(spot + 1).Markup("</text>"u8);
    }

    static byte[][] Split(byte[] drawing, params ReadOnlySpan<string> marks)
    {
        var rest = Encoding.UTF8.GetString(drawing);
        var parts = new byte[marks.Length][];
        for (var i = 0; i < marks.Length; i++)
        {
            var at = rest.IndexOf(marks[i], StringComparison.Ordinal);
            parts[i] = Encoding.UTF8.GetBytes(rest[..at]);
            rest = rest[(at + marks[i].Length)..];
        }

        return parts;
    }
}
