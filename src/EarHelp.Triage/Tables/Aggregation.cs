using System.Collections.Immutable;
using EarHelp.Triage.Cells;

namespace EarHelp.Triage.Tables;

/// <summary>Sum, least, greatest and count of the matching rows; over the one conclusion column.</summary>
static class Aggregation
{
    public static Decision Conclude(DecisionTable table, ImmutableArray<TableRow> matched, ImmutableArray<string> ids)
    {
        if (table.Policy == HitPolicy.Count)
            return new Decision.Aggregate(new FeelValue.Number(matched.Length), ids);
        if (table.Outputs.Length != 1)
            return Failed($"Policy {table.Policy.Letter} needs exactly one conclusion column.", ids);
        if (matched.IsEmpty)
            return new Decision.Aggregate(FeelValue.Nothing, ids);
        var values = matched.Select(r => r.Conclusions[0]).ToImmutableArray();
        return (table.Policy == HitPolicy.Sum ? Sum(values) : Outermost(values, table.Policy == HitPolicy.Least ? -1 : 1)) is { } value
            ? new Decision.Aggregate(value, ids)
            : Failed($"The conclusions {string.Join(", ", values)} of \"{table.Name}\" cannot be {(table.Policy == HitPolicy.Sum ? "added" : "compared")}.", ids);
    }

    static FeelValue.Number? Sum(ImmutableArray<FeelValue> values)
    {
        var sum = 0m;
        foreach (var value in values)
        {
            if (value is not FeelValue.Number number || (double)sum + (double)number.Value is > 7.9e28 or < -7.9e28)
                return null;
            sum += number.Value;
        }

        return new FeelValue.Number(sum);
    }

    static FeelValue? Outermost(ImmutableArray<FeelValue> values, int direction)
    {
        var outermost = values[0];
        foreach (var value in values)
        {
            if (value.CompareTo(outermost) is not { } order)
                return null;
            if (order * direction > 0)
                outermost = value;
        }

        return outermost;
    }

    static Decision.Failed Failed(string fault, ImmutableArray<string> ids) => new(DecisionFault.NotComparable, fault, ids);
}
