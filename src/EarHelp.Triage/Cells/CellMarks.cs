namespace EarHelp.Triage.Cells;

/// <summary>The marks of a cell, with what word processors put in their place.</summary>
static class CellMarks
{
    public static bool IsBlank(char c) => char.IsWhiteSpace(c) || c is '\u200B' or '\uFEFF' or '\u2060';

    /// <summary>Hyphen, figure dash, en dash, em dash, minus sign and their kin.</summary>
    public static bool IsDash(char c) => c is '-' or '\u2010' or '\u2011' or '\u2012' or '\u2013' or '\u2014' or '\u2212';

    public static bool IsQuote(char c) => c is '"' or '\u201C' or '\u201D' or '\u201E' or '\u201F' or '\u00AB' or '\u00BB';

    public static bool IsBracket(char c) => c is '[' or ']' or '(' or ')';

    public static bool StartsComparison(char c) => c is '<' or '>' or '=' or '!' or '\u2264' or '\u2265' or '\u2260';

    public static bool IsDigit(char c) => c is >= '0' and <= '9';
}
