using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Cells;

namespace EarHelp.Content.Dialogs;

/// <summary>The columns of a table by their headings.</summary>
sealed class Columns
{
    readonly Dictionary<string, int> _index = new(StringComparer.Ordinal);

    Columns(PagePart.Table table)
    {
        for (var i = 0; i < table.Headings.Length; i++)
            _index.TryAdd(table.Headings[i].Plain, i);
    }

    /// <summary>Reports headings that are missing or unknown; null if one is missing.</summary>
    public static Columns? Read(PagePart.Table table, string[] needed, string[] optional, ProblemList problems)
    {
        var columns = new Columns(table);
        var known = needed.Concat(optional).ToArray();
        foreach (var heading in table.Headings.Skip(1).Where(h => !known.Contains(h.Plain, StringComparer.Ordinal)))
        {
            var near = NearestName.To(heading.Plain, known);
            problems.Add(
                Codes.UnknownColumn,
                heading.Spot,
                $"This table has no column \"{heading.Plain}\".",
                (near is null ? string.Empty : $"Did you mean \"{near}\"? ") + $"Its columns are: {string.Join(", ", known)}.");
        }

        var missing = needed.Where(n => !columns._index.ContainsKey(n)).ToArray();
        foreach (var name in missing)
        {
            problems.Add(
                Codes.MissingColumn,
                table.Spot,
                $"The column \"{name}\" is missing.",
                $"Add it to the headings: {string.Join(", ", known)}.");
        }

        return missing.Length == 0 ? columns : null;
    }

    public bool Has(string name) => _index.ContainsKey(name);

    public Cell Of(Row row, string name) => row.Cells[_index[name]];

    /// <summary>The cell, or null if the table has no such column or the cell says nothing.</summary>
    public Cell? Find(Row row, string name) =>
        _index.TryGetValue(name, out var at) && !row.Cells[at].IsAnything && row.Cells[at].Text.Length > 0 ? row.Cells[at] : null;
}
