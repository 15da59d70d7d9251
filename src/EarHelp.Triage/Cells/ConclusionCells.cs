namespace EarHelp.Triage.Cells;

/// <summary>Reads a cell of a conclusion column: a FEEL literal, or bare words that stand for their own text; <c>-</c> is nothing.</summary>
public static class ConclusionCells
{
    public static (FeelValue? Value, CellFault? Fault) Read(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var cell = CellSlice.Of(text);
        if (cell.IsEmpty)
            return (null, new CellFault(CellFaultKind.Unreadable, 0, "The cell is empty.", "Write the conclusion, or - for nothing."));
        if (cell.Length == 1 && CellMarks.IsDash(cell[0]))
            return (FeelValue.Nothing, null);
        var (literal, fault) = CellLiterals.Parse(cell, CellScope.AnyName);
        if (literal is not null)
            return (literal.Value, null);
        var isMeantAsLiteral = CellMarks.IsQuote(cell[0]) || cell.Text.StartsWith("date(", StringComparison.Ordinal);
        return isMeantAsLiteral ? (null, fault) : (new FeelValue.Text(CellNames.Tidy(cell.Text)), null);
    }
}
