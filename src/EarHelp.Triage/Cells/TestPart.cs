using System.Diagnostics;

namespace EarHelp.Triage.Cells;

/// <summary>One entry of a cell's list.</summary>
/// <param name="Offset">Where it starts in the cell, from 0.</param>
public abstract record TestPart(int Offset)
{
    /// <summary><c>3</c>, <c>= 3</c>, <c>!= 3</c>, <c>&lt; 3</c> …</summary>
    public sealed record Comparison(Comparing How, CellLiteral With, int Offset) : TestPart(Offset);

    /// <summary><c>[4..90]</c>, <c>(4..90)</c>, <c>]4..90[</c>.</summary>
    public sealed record Range(CellLiteral Low, bool LowIsIn, CellLiteral High, bool HighIsIn, int Offset) : TestPart(Offset);

    public bool Evaluate(FeelValue value) => this switch
    {
        Comparison { How: Comparing.Equal } c => c.With.IsSameAs(value),
        Comparison { How: Comparing.NotEqual } c => IsOther(value, c.With),
        Comparison c => Meets(value.CompareTo(c.With.Value), c.How),
        Range r => Meets(value.CompareTo(r.Low.Value), r.LowIsIn ? Comparing.AtLeast : Comparing.Greater)
            && Meets(value.CompareTo(r.High.Value), r.HighIsIn ? Comparing.AtMost : Comparing.Less),
        _ => throw new UnreachableException(),
    };

    static bool IsOther(FeelValue value, CellLiteral literal) =>
        value is not FeelValue.Null
        && (literal.Value is FeelValue.Null || literal.IsSameKindAs(value))
        && !literal.IsSameAs(value);

    static bool Meets(int? order, Comparing how) => order is { } sign && how switch
    {
        Comparing.Less => sign < 0,
        Comparing.AtMost => sign <= 0,
        Comparing.Greater => sign > 0,
        Comparing.AtLeast => sign >= 0,
        _ => throw new UnreachableException(),
    };
}

public enum Comparing
{
    Equal,
    NotEqual,
    Less,
    AtMost,
    Greater,
    AtLeast,
}
