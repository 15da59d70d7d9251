using System.Collections.Immutable;
using EarHelp.Triage.Texts;

namespace EarHelp.Triage.Rules;

/// <summary>One row of the decision on how urgent it is.</summary>
/// <param name="Index">Place in reading order, from 0.</param>
/// <param name="Id">Permanent; rows of one rule are <c>X.1</c>, <c>X.2</c>.</param>
/// <param name="Conditions">All must hold; none: an otherwise-row, see <see cref="IsOtherwise"/>.</param>
/// <param name="Level">Rank of the level, 0 the most urgent; null if the row only warns, gives or withholds.</param>
/// <param name="Where">Indexes of destinations in order.</param>
/// <param name="CountsFrom">Index of a date fact from which the limit runs, or null: from the turn that reached the level.</param>
/// <param name="Because">The reason for clinicians.</param>
/// <param name="AlsoSaidBy">Rules that already say so, if this row never decides alone.</param>
public sealed record Rule(
    int Index,
    string Id,
    string Table,
    ImmutableArray<Condition> Conditions,
    int? Level,
    ImmutableArray<int> Where,
    ImmutableArray<string> Warn,
    ImmutableArray<int> Give,
    ImmutableArray<int> Withhold,
    int? CountsFrom,
    string Because,
    ImmutableArray<string> Sources,
    string Sure,
    ImmutableArray<string> AlsoSaidBy,
    SourceSpot Spot)
{
    /// <summary>The rule that owns the row: <c>RF-030</c> of <c>RF-030.2</c>.</summary>
    public string Owner => Id.Split('.')[0];

    /// <summary>True for a row with a level and no condition: it decides for whom no other row with a level matches.</summary>
    public bool IsOtherwise => Level is not null && Conditions.IsEmpty;
}

/// <summary>One row of the decision whether this clinic may treat.</summary>
/// <param name="Hold">The words after "not until", or null: it may treat.</param>
public sealed record TreatRule(
    int Index,
    string Id,
    ImmutableArray<Condition> Conditions,
    string? Hold,
    string Because,
    ImmutableArray<string> Sources,
    SourceSpot Spot);
