using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace EarHelp.Content.Dialogs;

/// <summary>Reads facts that follow from others, each after those it uses.</summary>
sealed class NamedFactsReader
{
    static readonly string[] Needed = ["when"];
    static readonly string[] Optional = ["source"];
    static readonly FactValues.Named YesNo = new(["yes", "no"]);

    readonly DialogDraft _draft;
    readonly Dictionary<string, PagePart.Table> _tables = new(StringComparer.Ordinal);
    readonly HashSet<string> _reading = new(StringComparer.Ordinal);

    NamedFactsReader(DialogDraft draft) => _draft = draft;

    public static void Read(DialogDraft draft) => new NamedFactsReader(draft).ReadAll();

    void ReadAll()
    {
        foreach (var table in _draft.Pages.Where(p => p.IsDialogs).SelectMany(p => p.Parts.OfType<PagePart.Table>()).Where(TableKind.IsNamedFact))
        {
            var name = NameOf(table);
            if (_draft.FactByDecidingName.ContainsKey(name) || !_tables.TryAdd(name, table))
                _draft.Problems.Add(Codes.NameTaken, table.Headings[0].Spot, $"The name \"{name}\" is given twice.", "Give this named fact another name.");
        }

        foreach (var name in _tables.Keys.ToArray())
            Ensure(name);
    }

    /// <summary>Reads a named fact unless it is read already, first those that it uses.</summary>
    void Ensure(string name)
    {
        if (_draft.NamedFactByName.ContainsKey(name) || !_tables.TryGetValue(name, out var table))
            return;
        if (!_reading.Add(name))
        {
            _draft.Problems.Add(Codes.Cycle, table.Headings[0].Spot, $"\"{name}\" follows from itself.", "Take out one of the rows that lead back to it.");
            return;
        }

        foreach (var used in table.Rows.SelectMany(UsedNames))
            Ensure(used);
        Add(name, table);
    }

    void Add(string name, PagePart.Table table)
    {
        if (Columns.Read(table, Needed, Optional, _draft.Problems) is not { } columns || _draft.NamedFactByName.ContainsKey(name))
            return;
        var rows = table.Rows.Select(r => RowOf(r, columns)).ToImmutableArray();
        if (TableKind.Of(table).StartsWith(TableKind.AllOf, StringComparison.Ordinal) && !rows.IsEmpty)
            rows = [new NamedFactRow([.. rows.SelectMany(r => r.Conditions)], 0, [.. rows.SelectMany(r => r.Sources)], table.Spot)];
        rows = [.. rows.Where(r => !r.Conditions.IsEmpty)];
        _draft.NamedFactByName.Add(name, _draft.NamedFacts.Count);
        _draft.NamedFacts.Add(new NamedFact(_draft.NamedFacts.Count, name, YesNo, rows, 1, table.Headings[0].Spot));
    }

    NamedFactRow RowOf(Row row, Columns columns)
    {
        var when = columns.Of(row, "when");
        ImmutableArray<Condition> conditions;
        if (row.Cells[0].IsAnything)
            conditions = ConditionReader.ReadList(_draft, when);
        else
            conditions = ConditionReader.ReadCell(_draft, row.Cells[0].Text, row.Cells[0].Spot, when) is { } one ? [one] : [];
        var sources = columns.Has("source") ? SourceCells.Read(_draft, columns.Find(row, "source"), row.Spot, "The row") : [];
        return new NamedFactRow(conditions, 0, sources, row.Spot);
    }

    static IEnumerable<string> UsedNames(Row row) =>
        row.Cells[0].IsAnything
            ? row.Cells.Length > 1 ? row.Cells[1].Text.Split(';').Select(c => c.Split(':')[0].Trim()) : []
            : [row.Cells[0].Text];

    static string NameOf(PagePart.Table table) => TableKind.Of(table)[TableKind.AnyOf.Length..].Trim();
}
