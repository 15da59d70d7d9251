using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Triage.Texts;
using Markdig.Extensions.Tables;

namespace EarHelp.Content.Reading;

/// <summary>Reads a pipe table line by line, so that an empty or a missing cell has its place too.</summary>
static class TableReader
{
    public static PagePart.Table Read(Table table, string title, SourceSpot titleSpot, Lines lines, ProblemList problems)
    {
        var spot = lines.SpotOf(table.Span.Start);
        var headings = Split(lines, table.Line);
        var rows = ImmutableArray.CreateBuilder<Row>();
        var lastLine = lines.SpotOf(table.Span.End).Line - 1;
        for (var line = table.Line + 2; line <= lastLine; line++)
        {
            var cells = Split(lines, line);
            var rowSpot = lines.SpotAt(line, 0);
            if (cells.Length != headings.Length)
            {
                problems.Add(
                    Codes.WrongCellCount,
                    rowSpot,
                    $"The row has {cells.Length} cells, the table has {headings.Length} columns.",
                    "Write one cell a column; a cell that means anything is -.");
                continue;
            }

            rows.Add(new Row(cells, rowSpot));
        }

        return new PagePart.Table(title, titleSpot, headings, rows.ToImmutable(), spot);
    }

    static ImmutableArray<Cell> Split(Lines lines, int line)
    {
        var text = lines.Line(line).TrimEnd();
        var cells = ImmutableArray.CreateBuilder<Cell>();
        var start = 0;
        var first = text.Length - text.TrimStart().Length;
        if (first < text.Length && text[first] == '|')
            start = first + 1;
        for (var at = start; at <= text.Length; at++)
        {
            var isEnd = at == text.Length;
            if (!isEnd && (text[at] != '|' || text[at - 1] == '\\'))
                continue;
            if (isEnd && at > 0 && text[at - 1] == '|' && start == at)
                break;
            var raw = text[start..at];
            var lead = raw.Length - raw.TrimStart().Length;
            cells.Add(new Cell(raw.Trim().Replace("\\|", "|", StringComparison.Ordinal), lines.SpotAt(line, raw.Trim().Length == 0 ? start : start + lead)));
            start = at + 1;
        }

        return cells.ToImmutable();
    }
}
