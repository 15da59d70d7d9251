using System.Collections.Immutable;
using EarHelp.Triage.Cells;

namespace EarHelp.Triage.Tables;

/// <summary>Makes one conclusion of the matching rows.</summary>
static class HitPolicies
{
    public static Decision Conclude(DecisionTable table, ImmutableArray<TableRow> matched)
    {
        var ids = matched.Select(r => r.Id).ToImmutableArray();
        if (table.Policy.Aggregates)
            return Aggregation.Conclude(table, matched, ids);
        if (table.Policy == HitPolicy.RuleOrder || table.Policy == HitPolicy.Collect)
            return All(matched, ids);
        if (table.Policy == HitPolicy.OutputOrder)
            return Ordered(table, matched) is { } ordered ? All(ordered, ids) : NoOrder(table, matched, ids);
        if (matched.IsEmpty)
            return new Decision.Failed(DecisionFault.NoRow, $"No row of \"{table.Name}\" matches.", ids);
        if (table.Policy == HitPolicy.Unique && matched.Length > 1)
            return new Decision.Failed(DecisionFault.NotUnique, $"More than one row of \"{table.Name}\" matches: {string.Join(", ", ids)}. Policy U allows one.", ids);
        if (table.Policy == HitPolicy.Any && matched.FirstOrDefault(r => !r.Conclusions.SequenceEqual(matched[0].Conclusions)) is { } other)
            return new Decision.Failed(DecisionFault.Disagreement, $"Rows {matched[0].Id} and {other.Id} of \"{table.Name}\" both match and disagree. Policy A wants one answer.", ids);
        if (table.Policy == HitPolicy.Priority)
            return Ordered(table, matched) is { } ordered ? One(ordered[0], ids) : NoOrder(table, matched, ids);
        return One(matched[0], ids);
    }

    static Decision.OneRow One(TableRow row, ImmutableArray<string> ids) => new(row.Conclusions, row.Id, ids);

    static Decision.Several All(ImmutableArray<TableRow> rows, ImmutableArray<string> ids) =>
        new([.. rows.Select(r => r.Conclusions)], [.. rows.Select(r => r.Id)], ids);

    // By the first ordered column, then the next; rows that are equal keep the order of the table. Null: a value has no place.
    static ImmutableArray<TableRow>? Ordered(DecisionTable table, ImmutableArray<TableRow> rows)
    {
        var columns = table.Outputs.Select((output, column) => (output.Order, Column: column)).Where(o => !o.Order.IsEmpty).ToList();
        if (columns.Count == 0 || rows.Any(r => columns.Any(c => !c.Order.Contains(r.Conclusions[c.Column]))))
            return rows.IsEmpty ? rows : null;
        var ordered = rows.OrderBy(_ => 0);
        foreach (var (order, column) in columns)
            ordered = ordered.ThenBy(r => order.IndexOf(r.Conclusions[column]));
        return [.. ordered];
    }

    static Decision.Failed NoOrder(DecisionTable table, ImmutableArray<TableRow> matched, ImmutableArray<string> ids) =>
        new(DecisionFault.NoOrder, $"A conclusion of \"{table.Name}\" has no place in the declared order: {string.Join("; ", matched.Select(r => $"{r.Id}: {string.Join(", ", r.Conclusions)}"))}.", ids);
}
