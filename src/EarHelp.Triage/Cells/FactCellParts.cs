using System.Diagnostics;
using EarHelp.Triage.Facts;

namespace EarHelp.Triage.Cells;

/// <summary>One entry of a cell over the values of a fact.</summary>
static class FactCellParts
{
    public static ValuesReading Read(TestPart part, FactValues values) => values switch
    {
        FactValues.Named named => OfNames(part, named),
        FactValues.Numbers numbers => OfNumbers(part, numbers),
        _ => throw new UnreachableException(),
    };

    static ValuesReading OfNames(TestPart part, FactValues.Named named)
    {
        if (part is not TestPart.Comparison { How: Comparing.Equal or Comparing.NotEqual } comparison)
            return Failed(CellFaultKind.Unreadable, part.Offset, "The values of this fact are names, and names have no more and no less.", $"List those that are meant: {FactCells.Written(named)}.");
        var literal = comparison.With;
        var name = literal.Value is FeelValue.Truth truth && named.IsYesNo ? (truth.Value ? "yes" : "no") : literal.Written;
        if (literal.Value is not (FeelValue.Text or FeelValue.Truth) || named.IndexOf(name) is not { } index)
        {
            var near = NearestName.To(name, named.Names);
            return Failed(CellFaultKind.UnknownValue, literal.Offset, $"\"{name}\" is not one of the values.",
                (near is null ? "" : $"Did you mean \"{near}\"? ") + $"The values are: {FactCells.Written(named)}.");
        }

        return ValuesReading.Of(Apply(comparison.How, ValueSet.Of(index), named.Count));
    }

    static ValuesReading OfNumbers(TestPart part, FactValues.Numbers numbers) => part switch
    {
        TestPart.Comparison comparison => Compared(comparison, numbers),
        TestPart.Range range => InRange(range, numbers),
        _ => throw new UnreachableException(),
    };

    static ValuesReading Compared(TestPart.Comparison comparison, FactValues.Numbers numbers)
    {
        if (Bound(comparison.With, numbers, out var bound) is { } fault)
            return ValuesReading.Failed(fault);
        if (comparison.How is Comparing.Equal or Comparing.NotEqual)
        {
            return numbers.IndexOf(bound) is { } index
                ? ValuesReading.Of(Apply(comparison.How, ValueSet.Of(index), numbers.Count))
                : Failed(CellFaultKind.OutOfRange, comparison.With.Offset, $"{comparison.With.Written} lies between two steps of the fact.", $"Its values go from {FactCells.Written(numbers)} in steps of {FeelNumber(numbers.Step)}.");
        }

        return ValuesReading.Of(comparison.How switch
        {
            Comparing.Less => Below(bound, false, numbers),
            Comparing.AtMost => Below(bound, true, numbers),
            Comparing.Greater => Above(bound, false, numbers),
            Comparing.AtLeast => Above(bound, true, numbers),
            _ => throw new UnreachableException(),
        });
    }

    static ValuesReading InRange(TestPart.Range range, FactValues.Numbers numbers)
    {
        if ((Bound(range.Low, numbers, out var low) ?? Bound(range.High, numbers, out _)) is { } fault)
            return ValuesReading.Failed(fault);
        Bound(range.High, numbers, out var high);
        return ValuesReading.Of(Above(low, range.LowIsIn, numbers).Intersect(Below(high, range.HighIsIn, numbers)));
    }

    static ValueSet Below(decimal bound, bool isIn, FactValues.Numbers numbers)
    {
        var steps = decimal.Floor((bound - numbers.From) / numbers.Step);
        var isOnStep = steps * numbers.Step == bound - numbers.From;
        return ValueSet.Between(0, Math.Min(numbers.Count - 1, (int)steps - (isOnStep && !isIn ? 1 : 0)));
    }

    static ValueSet Above(decimal bound, bool isIn, FactValues.Numbers numbers) =>
        Below(bound, !isIn, numbers).Complement(numbers.Count);

    static CellFault? Bound(CellLiteral literal, FactValues.Numbers numbers, out decimal bound)
    {
        bound = (literal.Value as FeelValue.Number)?.Value ?? 0;
        if (literal.Value is not FeelValue.Number)
            return new CellFault(CellFaultKind.UnknownValue, literal.Offset, $"\"{literal.Written}\" is not a number, and the values are numbers.", $"The values go from {FactCells.Written(numbers)}.");
        return bound < numbers.From || bound > numbers.To
            ? new CellFault(CellFaultKind.OutOfRange, literal.Offset, $"{literal.Written} is outside the range of the fact.", $"The values go from {FactCells.Written(numbers)}.")
            : null;
    }

    static ValueSet Apply(Comparing how, ValueSet set, int count) => how == Comparing.Equal ? set : set.Complement(count);

    static string FeelNumber(decimal number) => new FeelValue.Number(number).ToString();

    static ValuesReading Failed(CellFaultKind kind, int offset, string fault, string mend) =>
        ValuesReading.Failed(new CellFault(kind, offset, fault, mend));
}
