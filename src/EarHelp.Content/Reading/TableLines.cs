using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Reading;

/// <summary>Cuts the lines of a table into cells.</summary>
/// <remarks>Markdig says what is a table; the cells are cut here, because Markdig fills short rows up and gives empty cells no place.</remarks>
static class TableLines
{
    /// <param name="first">The line of the headings, from 0.</param>
    /// <param name="last">The last line of the table.</param>
    public static PageTable Read(SourceText source, int first, int last, string above, SourceSpot aboveSpot, ProblemList problems)
    {
        var headings = Cells(source, first);
        if (first + 1 <= last && Cells(source, first + 1).Length != headings.Length)
        {
            problems.Add(Codes.NotATable, source.SpotAt(source.StartOf(first + 1)), "The line of hyphens has another number of parts than the headings.",
                $"Write {string.Concat(Enumerable.Repeat("|---", headings.Length))}|.");
        }

        var rows = ImmutableArray.CreateBuilder<PageRow>();
        for (var line = first + 2; line <= last; line++)
        {
            var cells = Cells(source, line);
            if (cells.Length == 0)
                continue;
            rows.Add(new PageRow(Fit(cells, headings.Length, source, line, problems), cells[0].Spot));
        }

        return new PageTable(above, aboveSpot, headings, rows.ToImmutable(), headings.IsEmpty ? source.SpotAt(source.StartOf(first)) : headings[0].Spot);
    }

    static ImmutableArray<PageCell> Fit(ImmutableArray<PageCell> cells, int count, SourceText source, int line, ProblemList problems)
    {
        if (cells.Length == count)
            return cells;
        var lineText = source.LineAt(line);
        var spot = cells.Length > count ? cells[count].Spot : source.SpotAt(source.StartOf(line) + lineText.TrimEnd().Length);
        var mend = !lineText.Contains('|', StringComparison.Ordinal) ? "Leave an empty line between the table and the text below it."
            : cells.Length > count ? "Take the extra cell out; a bar inside a cell is written \\|." : "Add the missing cells; write - where nothing is meant.";
        problems.Add(Codes.WrongCellCount, spot, $"The row has {cells.Length} of {count} cells.", mend);
        return
        [
            .. cells.Take(count),
            .. Enumerable.Range(0, Math.Max(0, count - cells.Length)).Select(_ => new PageCell("", cells[^1].Offset, spot, IsMissing: true)),
        ];
    }

    /// <summary>The cells of a line; a bar after a backslash does not end one.</summary>
    public static ImmutableArray<PageCell> Cells(SourceText source, int line)
    {
        var text = source.LineAt(line);
        var from = text.Length - text.TrimStart().Length;
        var to = text.TrimEnd().Length;
        if (from >= to)
            return [];
        if (text[from] == '|')
            from++;
        if (to > from && text[to - 1] == '|' && (to < 2 || text[to - 2] != '\\'))
            to--;
        var cells = ImmutableArray.CreateBuilder<PageCell>();
        var start = from;
        for (var i = from; i <= to; i++)
        {
            if (i < to && (text[i] != '|' || (i > 0 && text[i - 1] == '\\')))
                continue;
            cells.Add(Cell(source, source.StartOf(line), text, start, i));
            start = i + 1;
        }

        return cells.ToImmutable();
    }

    static PageCell Cell(SourceText source, int lineStart, string text, int start, int end)
    {
        var raw = text[start..end];
        var blanks = raw.Length - raw.TrimStart().Length;
        var offset = lineStart + start + (raw.Trim().Length == 0 ? 0 : blanks);
        return new PageCell(raw.Trim(), offset, source.SpotAt(offset));
    }
}
