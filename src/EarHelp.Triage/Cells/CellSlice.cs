using System.Collections.Immutable;

namespace EarHelp.Triage.Cells;

/// <summary>A piece of a cell without the blanks around it.</summary>
readonly record struct CellSlice(string Whole, int Offset, int Length)
{
    public static CellSlice Of(string whole) => Trimmed(whole, 0, whole.Length);

    public bool IsEmpty => Length == 0;

    public char this[int index] => Whole[Offset + index];

    public string Text => Whole.Substring(Offset, Length);

    public CellSlice From(int start) => Between(Math.Min(start, Length), Length);

    /// <summary>The end is outside.</summary>
    public CellSlice Between(int start, int end) => Trimmed(Whole, Offset + start, Offset + end);

    /// <summary>The place of the bracket that closes the round one at the start, or -1.</summary>
    public int IndexOfClosing()
    {
        var depth = 0;
        var inQuotes = false;
        for (var i = 0; i < Length; i++)
        {
            if (TogglesQuotes(i, inQuotes))
                inQuotes = !inQuotes;
            else if (!inQuotes && this[i] == '(')
                depth++;
            else if (!inQuotes && this[i] == ')' && --depth == 0)
                return OnlyClosesLater(i) ? Length - 1 : i;
        }

        // A half-open range inside, such as not((3..90]), leaves the count uneven: then the last mark is the closing one.
        return Length > 1 && this[Length - 1] == ')' && !inQuotes ? Length - 1 : -1;
    }

    /// <summary>Entries between commas that stand outside quotes; a bracket never holds a comma.</summary>
    public ImmutableArray<CellSlice> SplitAtCommas()
    {
        var entries = ImmutableArray.CreateBuilder<CellSlice>();
        var start = 0;
        var inQuotes = false;
        for (var i = 0; i < Length; i++)
        {
            if (TogglesQuotes(i, inQuotes))
                inQuotes = !inQuotes;
            else if (!inQuotes && this[i] == ',')
            {
                entries.Add(Between(start, i));
                start = i + 1;
            }
        }

        entries.Add(Between(start, Length));
        return entries.ToImmutable();
    }

    // not([3..90), > 95): the round bracket closes the range, not the "not".
    bool OnlyClosesLater(int close) => this[Length - 1] == ')' && Whole.IndexOf("..", Offset, close, StringComparison.Ordinal) >= 0;

    bool TogglesQuotes(int i, bool inQuotes) => CellMarks.IsQuote(this[i]) && !(inQuotes && i > 0 && this[i - 1] == '\\');

    static CellSlice Trimmed(string whole, int start, int end)
    {
        while (start < end && CellMarks.IsBlank(whole[start]))
            start++;
        while (end > start && CellMarks.IsBlank(whole[end - 1]))
            end--;
        return new CellSlice(whole, start, end - start);
    }
}
