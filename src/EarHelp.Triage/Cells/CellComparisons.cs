namespace EarHelp.Triage.Cells;

/// <summary>Reads <c>&lt; 3</c>, <c>&gt;= 3</c>, <c>!= none</c> …</summary>
static class CellComparisons
{
    static readonly (string Mark, Comparing How)[] Marks =
    [
        ("<=", Comparing.AtMost), (">=", Comparing.AtLeast), ("!=", Comparing.NotEqual),
        ("<", Comparing.Less), (">", Comparing.Greater), ("=", Comparing.Equal),
        ("\u2264", Comparing.AtMost), ("\u2265", Comparing.AtLeast), ("\u2260", Comparing.NotEqual),
    ];

    static readonly (string Wrong, string Right)[] Slips =
    [
        ("<>", "!="), ("=<", "<="), ("=>", ">="), ("==", "="), ("<<", "<"), (">>", ">"), ("!==", "!="),
    ];

    public static (TestPart? Part, CellFault? Fault) Parse(CellSlice entry, CellScope scope)
    {
        foreach (var (wrong, right) in Slips)
        {
            if (entry.Text.StartsWith(wrong, StringComparison.Ordinal))
                return (null, Fault(entry.Offset, $"\"{wrong}\" is not a comparison.", $"Write {right} {entry.From(wrong.Length).Text}."));
        }

        foreach (var (mark, how) in Marks)
        {
            if (!entry.Text.StartsWith(mark, StringComparison.Ordinal))
                continue;
            var rest = entry.From(mark.Length);
            if (rest.IsEmpty)
                return (null, Fault(entry.Offset, $"After \"{mark}\" nothing stands.", $"Write what to compare with, for example {mark} 3."));
            var (literal, fault) = CellLiterals.Parse(rest, scope);
            if (literal is null)
                return (null, fault);
            return HasOrder(literal) || how is Comparing.Equal or Comparing.NotEqual
                ? (new TestPart.Comparison(how, literal, entry.Offset), null)
                : (null, Fault(rest.Offset, $"\"{literal.Written}\" has no more and no less.", "Write it alone, or use = or !=."));
        }

        return (null, Fault(entry.Offset, $"\"{entry.Text}\" cannot be read.", "Comparisons are < <= > >= = and !=."));
    }

    public static bool HasOrder(CellLiteral literal) =>
        literal is { IsName: false, Value: FeelValue.Number or FeelValue.Text or FeelValue.Day };

    static CellFault Fault(int offset, string fault, string mend) => new(CellFaultKind.Unreadable, offset, fault, mend);
}
