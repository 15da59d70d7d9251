using System.Collections.Immutable;
using System.Text.Json;
using EarHelp.Triage.Cells;

namespace EarHelp.Conformance.Feel;

/// <summary>A cell and a value to hold against it.</summary>
/// <param name="Names">Names in scope; each stands for the text of its letters.</param>
sealed record FeelPair(string Cell, FeelValue Value, ImmutableArray<string> Names)
{
    /// <summary>What our own evaluator says; null if it refuses the cell.</summary>
    public bool? Ours => CellParser.Parse(Cell, CellScope.Of(Names)).Test?.Evaluate(Value);

    public string ToJson() => JsonSerializer.Serialize(new
    {
        cell = Cell,
        value = Value switch
        {
            FeelValue.Number number => (object)number.Value,
            FeelValue.Text text => text.Value,
            FeelValue.Truth truth => truth.Value,
            FeelValue.Day day => day.Value.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture),
            _ => throw new System.Diagnostics.UnreachableException(),
        },
        day = Value is FeelValue.Day,
        names = Names,
    });

    public override string ToString() => $"{Cell} of {Value}";
}
