using System.Collections.Immutable;
using EarHelp.Triage.Cells;

namespace EarHelp.Triage.Tables;

/// <summary>What a decision table concludes.</summary>
/// <param name="Matched">The ids of all matching rows, in the order of the table.</param>
public abstract record Decision(ImmutableArray<string> Matched)
{
    /// <summary>One row's conclusions (policies U, A, P, F), one value a conclusion column.</summary>
    /// <param name="Rule">The row that decided; for A the first of those that agree.</param>
    public sealed record OneRow(ImmutableArray<FeelValue> Values, string Rule, ImmutableArray<string> Matched) : Decision(Matched);

    /// <summary>All matching rows' conclusions in the order of the policy (R, O, C); may be empty.</summary>
    /// <param name="Rules">The row of each entry.</param>
    public sealed record Several(ImmutableArray<ImmutableArray<FeelValue>> Values, ImmutableArray<string> Rules, ImmutableArray<string> Matched) : Decision(Matched);

    /// <summary>One value made of all matching rows (C+, C&lt;, C&gt;, C#).</summary>
    /// <param name="Value">Null's value if no row matches and there is nothing to add or compare.</param>
    public sealed record Aggregate(FeelValue Value, ImmutableArray<string> Matched) : Decision(Matched);

    /// <summary>The table breaks its own policy, or has no row for these inputs.</summary>
    public sealed record Failed(DecisionFault Kind, string Fault, ImmutableArray<string> Matched) : Decision(Matched);
}

public enum DecisionFault
{
    NoRow,

    /// <summary>Policy U, and more than one row matches.</summary>
    NotUnique,

    /// <summary>Policy A, and the matching rows conclude different things.</summary>
    Disagreement,

    /// <summary>Policy P or O, and a conclusion is not in the declared order.</summary>
    NoOrder,

    /// <summary>The conclusions cannot be added or compared.</summary>
    NotComparable,
}
