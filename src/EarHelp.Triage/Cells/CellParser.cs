using System.Collections.Immutable;

namespace EarHelp.Triage.Cells;

/// <summary>Reads a condition cell: a FEEL unary test (OMG DMN), and what word processors make of one.</summary>
/// <remarks>Never throws on any text. Curly quotes, long dashes, hard blanks and ≤ ≥ ≠ … are read where only one meaning is possible.</remarks>
public static class CellParser
{
    public static CellReading Parse(string text, CellScope scope)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(scope);
        var cell = CellSlice.Of(text);
        if (cell.IsEmpty)
            return Failed(0, "The cell is empty.", "Write - if anything may stand here.");
        if (cell.Length == 1 && CellMarks.IsDash(cell[0]))
            return CellReading.Of(new UnaryTest.Anything());
        if (CellNames.Find(cell, scope) is null && StartsWithNot(cell))
            return ParseNot(cell, scope);
        var (parts, fault) = ParseList(cell, scope);
        return fault is null ? CellReading.Of(new UnaryTest.AnyOf(parts)) : CellReading.Failed(fault);
    }

    static CellReading ParseNot(CellSlice cell, CellScope scope)
    {
        var inside = cell.From(3);
        if (inside.IsEmpty || inside[0] != '(')
            return Failed(cell.Offset, "After \"not\" a round bracket is missing.", $"Write not({inside.Text}).");
        var close = inside.IndexOfClosing();
        if (close < 0)
            return Failed(inside.Offset, "The round bracket after \"not\" is not closed.", "Write not(…), for example not(none).");
        if (!inside.From(close + 1).IsEmpty)
            return Failed(inside.From(close + 1).Offset, "\"not(…)\" is not the whole cell.", "Put everything inside the brackets: not(none, slight). For two different tests write two rows.");
        var list = inside.Between(1, close);
        if (list.IsEmpty)
            return Failed(list.Offset, "Nothing stands between the brackets of \"not\".", "Name what it must not be, for example not(none).");
        if (list.Length == 1 && CellMarks.IsDash(list[0]))
            return Failed(list.Offset, "\"not(-)\" can never be true.", "Write - alone for anything, or name what it must not be.");
        var (parts, fault) = ParseList(list, scope);
        return fault is null ? CellReading.Of(new UnaryTest.NoneOf(parts)) : CellReading.Failed(fault);
    }

    static (ImmutableArray<TestPart> Parts, CellFault? Fault) ParseList(CellSlice list, CellScope scope)
    {
        var parts = ImmutableArray.CreateBuilder<TestPart>();
        var entries = list.SplitAtCommas();
        foreach (var entry in entries)
        {
            var (part, fault) = ParsePart(entry, entries.Length, scope);
            if (fault is not null)
                return ([], fault);
            parts.Add(part!);
        }

        return (parts.ToImmutable(), null);
    }

    static (TestPart? Part, CellFault? Fault) ParsePart(CellSlice entry, int entries, CellScope scope)
    {
        if (entry.IsEmpty)
            return (null, Fault(entry.Offset, "Nothing stands between two commas, or after the last one.", "Remove the comma or write what is missing."));
        if (entries > 1 && entry.Length == 1 && CellMarks.IsDash(entry[0]))
            return (null, Fault(entry.Offset, "\"-\" stands in a list, but it means anything.", "Write - alone, or take it out of the list."));
        if (CellNames.Find(entry, scope) is { } name)
            return (Equal(new CellLiteral(new FeelValue.Text(name), true, entry.Offset)), null);
        if (StartsWithNot(entry) && entry.From(3) is { IsEmpty: false } rest && rest[0] == '(')
            return (null, Fault(entry.Offset, "\"not(…)\" stands inside a list.", "Make it the whole cell: not(none, slight). For two different tests write two rows."));
        if (CellMarks.StartsComparison(entry[0]))
            return CellComparisons.Parse(entry, scope);
        if (CellMarks.IsBracket(entry[0]) || CellRanges.LooksLikeRange(entry))
            return CellRanges.Parse(entry, scope);
        var (literal, fault) = CellLiterals.Parse(entry, scope);
        return literal is null ? (null, fault) : (Equal(literal), null);
    }

    static TestPart.Comparison Equal(CellLiteral literal) => new(Comparing.Equal, literal, literal.Offset);

    static bool StartsWithNot(CellSlice cell) =>
        cell.Length >= 3 && cell.Text.StartsWith("not", StringComparison.OrdinalIgnoreCase)
        && (cell.Length == 3 || cell[3] == '(' || CellMarks.IsBlank(cell[3]));

    static CellReading Failed(int offset, string fault, string mend) => CellReading.Failed(Fault(offset, fault, mend));

    static CellFault Fault(int offset, string fault, string mend) => new(CellFaultKind.Unreadable, offset, fault, mend);
}
