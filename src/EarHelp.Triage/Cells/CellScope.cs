using System.Collections.Immutable;

namespace EarHelp.Triage.Cells;

/// <summary>The names that a cell may use without quotes.</summary>
public sealed class CellScope
{
    CellScope(ImmutableArray<string> names, bool takesAnyName)
    {
        Names = names;
        TakesAnyName = takesAnyName;
    }

    /// <summary>Every name is allowed and stands for the text of its letters.</summary>
    public static CellScope AnyName { get; } = new([], true);

    public ImmutableArray<string> Names { get; }

    public bool TakesAnyName { get; }

    /// <summary>Only these names are allowed; they may consist of several words.</summary>
    public static CellScope Of(ImmutableArray<string> names) => new(names, false);
}
