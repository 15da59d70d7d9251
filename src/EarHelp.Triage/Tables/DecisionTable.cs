using System.Collections.Immutable;
using EarHelp.Triage.Cells;

namespace EarHelp.Triage.Tables;

/// <summary>A decision table over plain values, by its hit policy.</summary>
/// <param name="Inputs">The names of the condition columns.</param>
public sealed record DecisionTable(
    string Name,
    HitPolicy Policy,
    ImmutableArray<string> Inputs,
    ImmutableArray<OutputColumn> Outputs,
    ImmutableArray<TableRow> Rows)
{
    /// <summary>The conclusion for the given inputs. An input that is not given is nothing (null).</summary>
    public Decision Decide(IReadOnlyDictionary<string, FeelValue> inputs)
    {
        ArgumentNullException.ThrowIfNull(inputs);
        var values = Inputs.Select((name, i) => ReadInput(inputs.GetValueOrDefault(name, FeelValue.Nothing), i)).ToImmutableArray();
        var matched = Rows.Where(r => r.Matches(values)).ToImmutableArray();
        return HitPolicies.Conclude(this, matched);
    }

    // JSON has no dates: where a column's cells speak of days, a text written as a day is one.
    FeelValue ReadInput(FeelValue value, int column) => SpeaksOfDays(column) ? value.AsDate() : value;

    bool SpeaksOfDays(int column) => Rows.Any(r => r.Conditions[column].AllParts.Any(p => p switch
    {
        TestPart.Comparison comparison => comparison.With.Value is FeelValue.Day,
        TestPart.Range range => range.Low.Value is FeelValue.Day,
        _ => false,
    }));
}

/// <summary>A conclusion column.</summary>
/// <param name="Order">Its values, the first the most important; empty if none was declared.</param>
public sealed record OutputColumn(string Name, ImmutableArray<FeelValue> Order);

/// <param name="Conditions">One a condition column.</param>
/// <param name="Conclusions">One a conclusion column.</param>
public sealed record TableRow(string Id, ImmutableArray<UnaryTest> Conditions, ImmutableArray<FeelValue> Conclusions)
{
    public bool Matches(ImmutableArray<FeelValue> values)
    {
        for (var i = 0; i < Conditions.Length; i++)
        {
            if (!Conditions[i].Evaluate(values[i]))
                return false;
        }

        return true;
    }
}
