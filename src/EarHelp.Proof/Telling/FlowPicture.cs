using System.Collections.Immutable;
using System.Globalization;
using System.Net;
using System.Numerics;
using System.Text;
using EarHelp.Proof.Comparing;
using EarHelp.Proof.Patients;

namespace EarHelp.Proof.Telling;

/// <summary>
/// A small picture of the flow from old levels to new ones. A ribbon's width tells the order of magnitude of its patients, because
/// a few among many would otherwise not be seen.
/// </summary>
static class FlowPicture
{
    const int Width = 640, RowHeight = 44, Left = 190, Right = 450, Margin = 24, Widest = 18;

    public static string Write(ImmutableArray<LevelFlow> flow)
    {
        string[] names = [.. flow.Select(f => f.Before).Concat(flow.Select(f => f.After)).Distinct(StringComparer.Ordinal)];
        var height = (names.Length * RowHeight) + (2 * Margin);
        var svg = new StringBuilder();
        svg.Append(CultureInfo.InvariantCulture, $"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {Width} {height}\" role=\"img\" aria-label=\"Patients by level before and after\">");
        svg.Append(CultureInfo.InvariantCulture, $"<text x=\"{Left}\" y=\"16\" text-anchor=\"end\" class=\"head\">before</text><text x=\"{Right}\" y=\"16\" class=\"head\">after</text>");
        foreach (var one in flow)
            AddRibbon(svg, one, MiddleOf(one.Before), MiddleOf(one.After));
        foreach (var name in names)
        {
            var written = WebUtility.HtmlEncode(name);
            svg.Append(CultureInfo.InvariantCulture, $"<text x=\"{Left - 8}\" y=\"{MiddleOf(name) + 5}\" text-anchor=\"end\">{written}</text><text x=\"{Right + 8}\" y=\"{MiddleOf(name) + 5}\">{written}</text>");
        }

        return svg.Append("</svg>").ToString();

        int MiddleOf(string name) => Margin + (Array.IndexOf(names, name) * RowHeight) + (RowHeight / 2);
    }

    static void AddRibbon(StringBuilder svg, LevelFlow flow, int from, int to)
    {
        var kind = flow.Before == flow.After ? "same" : flow.StepsDown > 0 ? "down" : "up";
        var middle = (Left + Right) / 2;
        svg.Append(
            CultureInfo.InvariantCulture,
            $"<path class=\"{kind}\" d=\"M{Left} {from} C{middle} {from} {middle} {to} {Right} {to}\" stroke-width=\"{WidthOf(flow.Patients):0.#}\"><title>{WebUtility.HtmlEncode($"{flow.Before} -> {flow.After}: {Amount.InWords(flow.Patients)} patients")}</title></path>");
    }

    static double WidthOf(BigInteger patients)
    {
        const double MostDigits = 60;
        return 1 + (Widest * Math.Min(1, BigInteger.Log10(patients) / MostDigits));
    }
}
