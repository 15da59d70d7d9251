using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Cells;
using EarHelp.Triage.Rules;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Dialogs;

/// <summary>Reads condition cells and conditions of the form <c>fact: cell; fact: cell</c>.</summary>
static class ConditionReader
{
    /// <summary>The condition of one cell; null if it means anything, or if it has a fault.</summary>
    public static Condition? ReadCell(DialogDraft draft, string name, SourceSpot nameSpot, Cell cell)
    {
        if (draft.Find(name) is not { } found)
        {
            Names.ReportUnknown(name, nameSpot, "fact", draft.NamesForConditions, draft.Problems);
            return null;
        }

        if (cell.Text.Length == 0)
        {
            draft.Problems.Add(Codes.EmptyCell, cell.Spot, "The cell is empty.", "Write - if anything may stand here.");
            return null;
        }

        var reading = FactCells.Read(cell.Text, found.Values);
        if (reading.Fault is { } fault)
        {
            var code = fault.Kind switch
            {
                CellFaultKind.UnknownValue => Codes.UnknownValue,
                CellFaultKind.OutOfRange => Codes.OutOfRange,
                _ => Codes.BadCell,
            };
            draft.Problems.Add(code, cell.At(fault.Offset), fault.Fault, fault.Mend);
            return null;
        }

        return reading.IsAnything ? null : new Condition(found.Of, reading.Values!, cell.Text, cell.Spot);
    }

    /// <summary>All conditions of a cell; none for <c>-</c>.</summary>
    public static ImmutableArray<Condition> ReadList(DialogDraft draft, Cell? cell)
    {
        if (cell is null || cell.IsAnything || cell.Text.Length == 0)
            return [];
        var conditions = ImmutableArray.CreateBuilder<Condition>();
        var at = 0;
        foreach (var part in cell.Text.Split(';'))
        {
            var lead = part.Length - part.TrimStart().Length;
            var spot = cell.At(at + lead);
            var colon = part.IndexOf(':', StringComparison.Ordinal);
            at += part.Length + 1;
            if (colon < 0)
            {
                draft.Problems.Add(Codes.BadCondition, spot, $"\"{part.Trim()}\" is not a condition.", "Write \"fact: cell\", several with ; between.");
                continue;
            }

            var test = part[(colon + 1)..];
            var testSpot = spot with { Column = spot.Column + colon + 1 - lead + (test.Length - test.TrimStart().Length) };
            if (ReadCell(draft, part[..colon].Trim(), spot, new Cell(test.Trim(), testSpot)) is { } condition)
                conditions.Add(condition);
        }

        return conditions.ToImmutable();
    }
}
