using System.Text.RegularExpressions;
using EarHelp.Triage.Facts;

namespace EarHelp.Triage.Cells;

/// <summary>Reads a condition cell over the values of a fact, as the exact set of values that satisfy it.</summary>
public static partial class FactCells
{
    /// <summary>Exact by arithmetic on bounds: no domain is walked value by value.</summary>
    public static ValuesReading Read(string text, FactValues values)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(values);
        var scope = CellScope.Of(values is FactValues.Named named ? named.Names : []);
        if (values is FactValues.Numbers numbers && numbers.Step != decimal.Truncate(numbers.Step) && DecimalComma().Match(text) is { Success: true } comma)
        {
            return ValuesReading.Failed(new CellFault(CellFaultKind.Unreadable, comma.Index, $"\"{comma.Value}\" may be one number or two.",
                $"Write {comma.Value.Replace(',', '.')} for one number, or a blank after the comma for two."));
        }

        var reading = CellParser.Parse(text, scope);
        return reading.Test is null ? ValuesReading.Failed(reading.Fault!) : Of(reading.Test, values);
    }

    static ValuesReading Of(UnaryTest test, FactValues values)
    {
        if (test is UnaryTest.Anything)
            return ValuesReading.Anything;
        var met = ValueSet.Empty;
        foreach (var part in test.AllParts)
        {
            var reading = FactCellParts.Read(part, values);
            if (reading.Fault is not null)
                return reading;
            met = met.Union(reading.Values!);
        }

        if (test is UnaryTest.NoneOf)
            met = met.Complement(values.Count);
        return met.IsEmpty
            ? ValuesReading.Failed(new CellFault(CellFaultKind.NeverTrue, 0, "No value of the fact satisfies this cell.", $"The values are {Written(values)}."))
            : ValuesReading.Of(met);
    }

    internal static string Written(FactValues values) => values switch
    {
        FactValues.Named named => string.Join(", ", named.Names),
        FactValues.Numbers numbers => $"{numbers.NameOf(0)} to {numbers.NameOf(numbers.Count - 1)} {numbers.Unit}".TrimEnd(),
        _ => throw new System.Diagnostics.UnreachableException(),
    };

    [GeneratedRegex(@"\d+,\d+", RegexOptions.CultureInvariant)]
    private static partial Regex DecimalComma();
}

/// <summary>What a cell says of a fact: anything (also "does not apply"), a set of values, or a fault.</summary>
public sealed record ValuesReading(bool IsAnything, ValueSet? Values, CellFault? Fault)
{
    public static ValuesReading Anything { get; } = new(true, null, null);

    public static ValuesReading Of(ValueSet values) => new(false, values, null);

    public static ValuesReading Failed(CellFault fault) => new(false, null, fault);
}
