using System.Text.RegularExpressions;

namespace EarHelp.Triage.Cells;

/// <summary>Reads <c>[4..90]</c> with open and closed ends in every spelling of FEEL.</summary>
static partial class CellRanges
{
    const string Example = "Write a range as [4..90]; a round or turned bracket leaves the end out.";

    /// <summary>True for what was meant as a range but has no brackets: <c>4..90</c>, <c>4–90</c>, <c>4 to 90</c>.</summary>
    public static bool LooksLikeRange(CellSlice entry) => entry.Text.Contains("..", StringComparison.Ordinal) && !CellMarks.IsQuote(entry[0])
        || BareRange().IsMatch(entry.Text);

    public static (TestPart? Part, CellFault? Fault) Parse(CellSlice entry, CellScope scope)
    {
        var first = entry[0];
        var last = entry[entry.Length - 1];
        if (first is not ('[' or '(' or ']'))
            return (null, NoBrackets(entry));
        if (entry.Length < 2 || last is not (']' or ')' or '['))
            return (null, Fault(entry.Offset, "The range is not closed.", Example));
        var inside = entry.Between(1, entry.Length - 1);
        var (at, width) = FindDots(inside);
        if (at < 0)
            return (null, Fault(entry.Offset, "The brackets hold no range.", Example));
        var (low, fault) = ParseEnd(inside.Between(0, at), scope);
        if (low is null)
            return (null, fault);
        (var high, fault) = ParseEnd(inside.From(at + width), scope);
        if (high is null)
            return (null, fault);
        if (low.Value.CompareTo(high.Value) is not { } order)
            return (null, Fault(inside.Offset, "The two ends of the range are of different kinds.", Example));
        if (order > 0)
            return (null, Fault(inside.Offset, $"The range begins with {low.Written}, which is more than {high.Written}.", "Write the smaller end first."));
        var range = new TestPart.Range(low, first == '[', high, last == ']', entry.Offset);
        return order == 0 && !(range.LowIsIn && range.HighIsIn)
            ? (null, new CellFault(CellFaultKind.NeverTrue, entry.Offset, "The range holds nothing.", Example))
            : (range, null);
    }

    static (CellLiteral? Literal, CellFault? Fault) ParseEnd(CellSlice end, CellScope scope)
    {
        if (end.IsEmpty)
            return (null, Fault(end.Offset, "An end of the range is missing.", "For one side only write < 3 or >= 3; for both write [4..90]."));
        var (literal, fault) = CellLiterals.Parse(end, scope);
        if (literal is not null && !CellComparisons.HasOrder(literal))
            return (null, Fault(end.Offset, $"\"{literal.Written}\" cannot be the end of a range.", "List the values with commas between them."));
        return (literal, fault);
    }

    // Two dots; three dots or one "…" as word processors make of them; or a long dash between the brackets.
    static (int At, int Width) FindDots(CellSlice inside)
    {
        var text = inside.Text;
        var dots = text.IndexOf("..", StringComparison.Ordinal);
        if (dots >= 0)
            return (dots, text.AsSpan(dots).StartsWith("...") ? 3 : 2);
        var ellipsis = text.IndexOf('\u2026', StringComparison.Ordinal);
        if (ellipsis >= 0)
            return (ellipsis, 1);
        for (var i = 1; i < text.Length; i++)
        {
            if (text[i] is '\u2013' or '\u2014' && !CellMarks.IsQuote(text[0]))
                return (i, 1);
        }

        return (-1, 0);
    }

    static CellFault NoBrackets(CellSlice entry)
    {
        var match = BareRange().Match(entry.Text);
        var mend = match.Success ? $"Write [{match.Groups[1].Value}..{match.Groups[2].Value}] if both ends are meant too." : Example;
        return Fault(entry.Offset, $"\"{entry.Text}\" does not say whether its ends are in the range.", mend);
    }

    static CellFault Fault(int offset, string fault, string mend) => new(CellFaultKind.Unreadable, offset, fault, mend);

    [GeneratedRegex(@"^(-?\d+(?:\.\d+)?)\s*(?:-|\u2010|\u2011|\u2012|\u2013|\u2014|\u2026|\.\.|to)\s*(-?\d+(?:\.\d+)?)$", RegexOptions.CultureInvariant)]
    private static partial Regex BareRange();
}
