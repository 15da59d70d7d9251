using System.Collections.Immutable;
using System.Globalization;
using System.Net;
using System.Text;
using EarHelp.Proof.Patients;

namespace EarHelp.Proof.Seeing;

/// <summary>A map as an SVG picture without a script, for a file or inside a page. Each line's title names its rules.</summary>
public static class MapPicture
{
    const int Width = 1000, Margin = 40, LineHeight = 17, Gap = 14, LeftEdge = 20, RightOfScreens = 380, LeftOfLevels = 640, RulesALine = 5;

    const string Style = "text{font:13px system-ui,sans-serif;fill:#1b1b1b}.name{font-weight:600}.box{fill:#fff;stroke:#8a949b}path{fill:none;stroke:#5c7f99;stroke-opacity:.45}path:hover{stroke:#a3341c;stroke-opacity:1}";

    public static string Write(DialogMap map)
    {
        ArgumentNullException.ThrowIfNull(map);
        var screens = Places(map.Screens.Select(s => (s.Id, 1 + s.Facts.Length)));
        var levels = Places(map.Levels.Select(l => (l.Id, LinesOf(l).Count + 1)));
        var height = Margin + Math.Max(screens.Values.Max(p => p.Bottom), levels.Values.Max(p => p.Bottom));
        var svg = new StringBuilder();
        svg.Append(CultureInfo.InvariantCulture, $"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {Width} {height}\" role=\"img\"><title>{Text($"What \"{map.Dialog}\" asks, in order, and where its rules lead")}</title><style>{Style}</style>");
        svg.Append(CultureInfo.InvariantCulture, $"<text x=\"{LeftEdge}\" y=\"20\" class=\"name\">asked, in this order</text><text x=\"{LeftOfLevels}\" y=\"20\" class=\"name\">levels, the most urgent first</text>\n");
        foreach (var link in map.Links)
            AddLink(svg, link, screens[link.Screen].Middle, levels[link.Level].Middle);
        foreach (var screen in map.Screens)
            AddBox(svg, screens[screen.Id], LeftEdge, RightOfScreens - LeftEdge, screen.Id, screen.Facts);
        foreach (var level in map.Levels)
            AddBox(svg, levels[level.Id], LeftOfLevels, Width - LeftOfLevels - LeftEdge, level.Id, LinesOf(level));
        return svg.Append("</svg>\n").ToString();
    }

    static Dictionary<string, Place> Places(IEnumerable<(string Id, int Lines)> boxes)
    {
        var places = new Dictionary<string, Place>(StringComparer.Ordinal);
        var top = Margin;
        foreach (var (id, lines) in boxes)
        {
            var bottom = top + (lines * LineHeight) + Gap;
            places[id] = new Place(top, bottom - (Gap / 2));
            top = bottom;
        }

        return places;
    }

    static List<string> LinesOf(MappedLevel level) =>
    [
        $"{Amount.InWords(level.Patients)} patients, at most {level.ScreensAtMost.ToString(CultureInfo.InvariantCulture)} screens",
        .. level.Rules.Chunk(RulesALine).Select(r => string.Join(", ", r)),
    ];

    static void AddLink(StringBuilder svg, MapLink link, int from, int to)
    {
        var middle = (RightOfScreens + LeftOfLevels) / 2;
        svg.Append(
            CultureInfo.InvariantCulture,
            $"<path d=\"M{RightOfScreens} {from} C{middle} {from} {middle} {to} {LeftOfLevels} {to}\" stroke-width=\"{Math.Min(link.Rules.Length, 8)}\"><title>{Text($"{link.Screen} decides in {link.Level}: {string.Join(", ", link.Rules)}")}</title></path>\n");
    }

    static void AddBox(StringBuilder svg, Place place, int left, int width, string name, IEnumerable<string> lines)
    {
        svg.Append(CultureInfo.InvariantCulture, $"<rect class=\"box\" x=\"{left}\" y=\"{place.Top}\" width=\"{width}\" height=\"{place.Bottom - place.Top}\" rx=\"4\"/><text x=\"{left + 8}\" y=\"{place.Top + LineHeight - 3}\" class=\"name\">{Text(name)}</text>");
        var y = place.Top + LineHeight - 3;
        foreach (var line in lines)
            svg.Append(CultureInfo.InvariantCulture, $"<text x=\"{left + 8}\" y=\"{y += LineHeight}\">{Text(line)}</text>");
        svg.Append('\n');
    }

    static string Text(string text) => WebUtility.HtmlEncode(text);

    readonly record struct Place(int Top, int Bottom)
    {
        public int Middle => (Top + Bottom) / 2;
    }
}
