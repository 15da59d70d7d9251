using System.Collections.Immutable;
using EarHelp.Content.Reading;
using EarHelp.Triage.Rules;

namespace EarHelp.Content.Dialogs;

/// <summary>The condition and conclusion columns of a decision table.</summary>
sealed class RuleColumns(PagePart.Table table)
{
    readonly ImmutableArray<Cell> _headings = table.Headings;

    public bool Has(string conclusion) => IndexOf(conclusion) >= 0;

    public Cell Of(Row row, string conclusion) => row.Cells[IndexOf(conclusion)];

    /// <summary>The cell, or null if there is no such column or it says nothing.</summary>
    public Cell? Find(Row row, string conclusion)
    {
        var at = IndexOf(conclusion);
        return at < 0 || row.Cells[at].IsAnything || row.Cells[at].Text.Length == 0 ? null : row.Cells[at];
    }

    public ImmutableArray<Condition> Conditions(DialogDraft draft, Row row)
    {
        var conditions = ImmutableArray.CreateBuilder<Condition>();
        for (var i = 1; i < _headings.Length; i++)
        {
            if (!_headings[i].IsBold && row.Cells[i].Text.Length > 0
                && ConditionReader.ReadCell(draft, _headings[i].Text, _headings[i].Spot, row.Cells[i]) is { } condition)
            {
                conditions.Add(condition);
            }
        }

        return conditions.ToImmutable();
    }

    /// <summary>True if every condition of the row is <c>-</c>.</summary>
    public bool SaysAnything(Row row)
    {
        for (var i = 1; i < _headings.Length; i++)
        {
            if (!_headings[i].IsBold && !row.Cells[i].IsAnything)
                return false;
        }

        return true;
    }

    int IndexOf(string conclusion)
    {
        for (var i = 1; i < _headings.Length; i++)
        {
            if (_headings[i].IsBold && _headings[i].Plain == conclusion)
                return i;
        }

        return -1;
    }
}
