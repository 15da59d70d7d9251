using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using EarHelp.Content.Examples;

namespace EarHelp.Cli.Describing;

/// <summary>What the examples reach, as lines for a person, and a line in figures for each kind of thing.</summary>
public static class CoverageTable
{
    public static string Write(ImmutableArray<Covered> covered)
    {
        var text = new StringBuilder();
        var (what, name) = (Widest(covered, "what", c => c.What), Widest(covered, "name", c => c.Name));
        Line("what", "name", "examples", "stands at");
        foreach (var one in covered)
            Line(one.What, one.Name, one.Examples == 0 ? "none" : one.Examples.ToString(CultureInfo.InvariantCulture), one.Spot.ToString());
        text.Append('\n');
        foreach (var kind in covered.GroupBy(c => c.What))
            text.Append(CultureInfo.InvariantCulture, $"{kind.Key}: {kind.Count(c => c.Examples > 0)} of {kind.Count()} reached\n");
        return text.ToString();

        void Line(string first, string second, string third, string last) =>
            text.Append(first.PadRight(what + 2)).Append(second.PadRight(name + 2)).Append(third.PadRight("examples".Length + 2)).Append(last).Append('\n');
    }

    static int Widest(ImmutableArray<Covered> covered, string heading, Func<Covered, string> text) =>
        covered.Select(c => text(c).Length).Append(heading.Length).Max();
}
