using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Cells;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Dialogs;

/// <summary>Reads conditions: a cell below a fact's name, or <c>fact: cell; fact: cell</c>.</summary>
sealed class ConditionReader(FactScope scope, ProblemList problems)
{
    /// <summary>Null for <c>-</c>, and after a fault. On a fact that is not there, one that nobody meets: nobody is asked it.</summary>
    public Condition? Read(string fact, SourceSpot factSpot, string cell, SourceSpot spot)
    {
        if (scope.Find(fact) is not { } found)
        {
            ReportUnknown(fact, factSpot);
            return scope.Facts.IsEmpty || IsAnything(cell) ? null : new Condition(new FactReference(false, 0), ValueSet.Empty, cell, spot);
        }

        var reading = FactCells.Read(cell, found.Values);
        if (!reading.IsAnything)
            scope.MarkUsed(fact);
        if (scope.IsDamaged(fact))
            return null;
        if (reading.Fault is { } fault)
            Report(fault, $"{fact}: ", spot, problems);
        return reading.Values is null ? null : new Condition(found.Of, reading.Values, cell, spot);
    }

    /// <summary>Empty for <c>-</c>.</summary>
    public ImmutableArray<Condition> ReadList(PageCell cell)
    {
        if (cell.IsNothing)
            return [];
        var conditions = ImmutableArray.CreateBuilder<Condition>();
        foreach (var (text, spot) in cell.SplitAt(';'))
        {
            if (ReadOne(text, spot) is { } condition)
                conditions.Add(condition);
        }

        return conditions.ToImmutable();
    }

    public Condition? ReadOne(string text, SourceSpot spot)
    {
        var colon = text.IndexOf(':', StringComparison.Ordinal);
        if (colon < 0)
        {
            problems.Add(Codes.WrongCondition, spot, text.Length == 0 ? "A condition is missing between two semicolons." : $"\"{text}\" is not a condition.", "Write \"fact: cell\", for example \"hearing: reduced, gone\"; join several with ;");
            return null;
        }

        var rest = text[(colon + 1)..];
        var blanks = rest.Length - rest.TrimStart().Length;
        var cellSpot = spot with { Column = spot.Column + colon + 1 + blanks };
        if (IsAnything(rest.Trim()))
        {
            problems.Add(Codes.WrongCondition, cellSpot, $"\"{text}\" is true of anything.", "Name the values that are meant, or leave the condition out.");
            return null;
        }

        return Read(text[..colon].Trim(), spot, rest.Trim(), cellSpot);
    }

    static bool IsAnything(string cell) => cell is "-" or "\u2013" or "\u2014";

    void ReportUnknown(string fact, SourceSpot spot)
    {
        if (scope.FindDate(fact) is { } date)
            problems.Add(Codes.UnknownName, spot, $"\"{fact}\" is a date, and conditions do not speak of dates.", $"Write the number counted from it: \"{date.DecidingId}\".");
        else
            problems.AddUnknown(Codes.UnknownName, spot, "fact", fact, scope.Names);
    }

    public static void Report(CellFault fault, string before, SourceSpot cell, ProblemList problems)
    {
        var code = fault.Kind switch
        {
            CellFaultKind.Unreadable => Codes.UnreadableCell,
            CellFaultKind.UnknownValue => Codes.UnknownValue,
            CellFaultKind.OutOfRange => Codes.ValueOutOfRange,
            CellFaultKind.NeverTrue => Codes.NeverTrue,
            _ => throw new System.Diagnostics.UnreachableException(),
        };
        problems.Add(code, cell with { Column = cell.Column + fault.Offset }, before + fault.Fault, fault.Mend);
    }
}
