using EarHelp.Content.Problems;

namespace EarHelp.Content.Reading;

/// <summary>Finds the cells of a table by the names of its columns.</summary>
sealed class Columns
{
    readonly Dictionary<string, int> _places = new(StringComparer.Ordinal);

    public bool Has(string column) => _places.ContainsKey(column);

    /// <summary>The cell of a row; one marked as missing if the table has no such column.</summary>
    public PageCell Cell(PageRow row, string column) => _places.TryGetValue(column, out var place) && place < row.Cells.Length
        ? row.Cells[place]
        : new PageCell("", row.Cells[0].Offset, row.Spot, IsMissing: true);

    /// <summary>Reports columns that are missing, doubled or unknown, and empty cells except in columns where <paramref name="mayBeEmpty"/> allows them.</summary>
    public static Columns Of(PageTable table, string[] needed, string[] possible, ProblemList problems, string[]? mayBeEmpty = null)
    {
        var columns = new Columns();
        for (var i = 0; i < table.Headings.Length; i++)
        {
            var heading = table.Headings[i];
            var name = i == 0 ? needed[0] : heading.Text;
            if (i == 0 && heading.Text != name)
                problems.AddUnknown(Codes.UnknownColumn, heading.Spot, "column", heading.Text, [name]);
            if (i > 0 && !needed.Contains(name) && !possible.Contains(name))
                problems.AddUnknown(Codes.UnknownColumn, heading.Spot, "column", name, needed.Concat(possible));
            else if (!columns._places.TryAdd(name, i))
                problems.Add(Codes.DoubledColumn, heading.Spot, $"The column \"{name}\" stands twice.", "Keep one of them.");
        }

        foreach (var name in needed.Where(n => !columns.Has(n)))
            problems.Add(Codes.MissingColumn, table.Spot, $"The table has no column \"{name}\".", $"Its columns are: {string.Join(", ", needed.Concat(possible))}.");
        columns.ReportEmpty(table, mayBeEmpty ?? [], problems);
        return columns;
    }

    void ReportEmpty(PageTable table, string[] mayBeEmpty, ProblemList problems)
    {
        foreach (var (name, place) in _places.Where(p => !mayBeEmpty.Contains(p.Key)))
        {
            foreach (var row in table.Rows)
                EmptyCells.Report(row.Cells[place], name, problems);
        }
    }
}

static class EmptyCells
{
    public static void Report(PageCell cell, string column, ProblemList problems)
    {
        if (cell is { IsMissing: false, Text.Length: 0 })
            problems.Add(Codes.EmptyCell, cell.Spot, $"The cell in the column \"{column}\" is empty.", "Write -, or what is meant.");
    }
}
