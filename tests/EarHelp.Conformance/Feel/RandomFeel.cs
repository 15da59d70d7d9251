using System.Collections.Immutable;
using System.Globalization;
using EarHelp.Triage.Cells;

namespace EarHelp.Conformance.Feel;

/// <summary>Random cells in every form of our grammar, and random values near their bounds.</summary>
sealed class RandomFeel(Random chance)
{
    static readonly ImmutableArray<string> Names = ["none", "sudden", "over a day", "half-open", "not sure", "b2"];
    static readonly string[] Ordering = ["<", "<=", ">", ">="];
    static readonly string[] Sameness = ["=", "!="];

    /// <summary>A cell and a value of the same kind.</summary>
    public FeelPair OfOneKind()
    {
        var kind = (Kind)chance.Next(5);
        return new FeelPair(Cell(kind, mayCompare: kind is not (Kind.Truth or Kind.Name)), Value(kind), Names);
    }

    /// <summary>A value of another kind than the cell's, which asks only whether they are the same.</summary>
    public FeelPair OfTwoKinds()
    {
        var kind = (Kind)chance.Next(4);
        var other = (Kind)(((int)kind + 1 + chance.Next(3)) % 4);
        return new FeelPair(Cell(kind, mayCompare: false), Value(other), Names);
    }

    string Cell(Kind kind, bool mayCompare)
    {
        if (chance.Next(40) == 0)
            return "-";
        var list = string.Join(chance.Next(2) == 0 ? ", " : " , ", Enumerable.Range(0, 1 + chance.Next(3)).Select(_ => Part(kind, mayCompare)));
        return chance.Next(3) == 0 ? $"not({list})" : list;
    }

    string Part(Kind kind, bool mayCompare) => chance.Next(mayCompare ? 6 : 2) switch
    {
        0 => Literal(Value(kind), kind),
        1 => $"{Sameness[chance.Next(2)]} {Literal(Value(kind), kind)}",
        2 or 3 => $"{Ordering[chance.Next(4)]}{(chance.Next(2) == 0 ? " " : "")}{Literal(Value(kind), kind)}",
        _ => Range(kind),
    };

    string Range(Kind kind)
    {
        var (one, other) = (Value(kind), Value(kind));
        while (one.CompareTo(other) == 0)
            other = Value(kind);
        var (low, high) = one.CompareTo(other) < 0 ? (one, other) : (other, one);
        return $"{"[(]"[chance.Next(3)]}{Literal(low, kind)}..{Literal(high, kind)}{"])["[chance.Next(3)]}";
    }

    FeelValue Value(Kind kind) => kind switch
    {
        Kind.Number => new FeelValue.Number(chance.Next(-8, 9) / (chance.Next(2) == 0 ? 1m : 4m)),
        Kind.Text => new FeelValue.Text(new string([.. Enumerable.Range(0, 1 + chance.Next(2)).Select(_ => "abcB "[chance.Next(5)])])),
        Kind.Truth => new FeelValue.Truth(chance.Next(2) == 0),
        Kind.Day => new FeelValue.Day(new DateOnly(2026, 2, 25).AddDays(chance.Next(8))),
        Kind.Name => new FeelValue.Text(Names[chance.Next(Names.Length)]),
        _ => throw new System.Diagnostics.UnreachableException(),
    };

    static string Literal(FeelValue value, Kind kind) => kind switch
    {
        Kind.Name => ((FeelValue.Text)value).Value,
        Kind.Number => ((FeelValue.Number)value).Value.ToString(CultureInfo.InvariantCulture),
        _ => value.ToString(),
    };

    enum Kind
    {
        Number,
        Text,
        Truth,
        Day,
        Name,
    }
}
