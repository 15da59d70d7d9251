using System.Collections.Immutable;
using EarHelp.Content.Reading;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Dialogs;

/// <summary>A named fact before its conditions are read.</summary>
/// <param name="IsAllOf">All rows together are one row.</param>
/// <param name="Column">Of a decision table: the conclusion column that makes the fact.</param>
sealed record NamedFactDraft(string Id, SourceSpot Spot, FactValues.Named Values, PageTable Table, bool IsAllOf, RuleTable? Rules, int Column)
{
    static readonly FactValues.Named YesNo = new(["yes", "no"]);

    public static NamedFactDraft OfList(PageTable table)
    {
        var isAll = table.Kind.StartsWith(TableKinds.AllOf, StringComparison.Ordinal);
        return new NamedFactDraft(table.Kind[TableKinds.AnyOf.Length..].Trim(), table.Spot, YesNo, table, isAll, null, 0);
    }

    /// <summary>Its values are those of the column, in the order that the heading gives, else in the order of the rows.</summary>
    public static NamedFactDraft OfColumn(RuleTable rules, int column)
    {
        var heading = rules.Table.Headings[column];
        var values = heading.Order.Concat(rules.Table.Rows.Select(r => r.Cells[column].Text).Where(t => t.Length > 0)).Distinct(StringComparer.Ordinal).ToImmutableArray();
        return new NamedFactDraft(heading.Name, heading.Spot, values.All(v => v is "yes" or "no") ? YesNo : new FactValues.Named(values), rules.Table, false, rules, column);
    }
}
