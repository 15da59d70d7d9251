using System.Collections.Immutable;
using System.Diagnostics;

namespace EarHelp.Triage.Cells;

/// <summary>What a condition cell asks of a value: a FEEL unary test (OMG DMN).</summary>
public abstract record UnaryTest
{
    UnaryTest()
    {
    }

    /// <summary><c>-</c>: anything, also nothing.</summary>
    public sealed record Anything : UnaryTest;

    /// <summary>At least one part holds.</summary>
    public sealed record AnyOf(ImmutableArray<TestPart> Parts) : UnaryTest;

    /// <summary>A value is there, and no part holds.</summary>
    public sealed record NoneOf(ImmutableArray<TestPart> Parts) : UnaryTest;

    /// <summary>True if the test holds for a value. A value of another kind than the cell's never meets a comparison.</summary>
    /// <remarks>Nothing (null) meets only <c>-</c> and <c>null</c>: a fact that is missing is never "not" something.</remarks>
    public bool Evaluate(FeelValue value) => this switch
    {
        Anything => true,
        AnyOf any => any.Parts.Any(p => p.Evaluate(value)),
        NoneOf none => value is not FeelValue.Null && !none.Parts.Any(p => p.Evaluate(value)),
        _ => throw new UnreachableException(),
    };

    /// <summary>The parts of the test; none for <c>-</c>.</summary>
    public ImmutableArray<TestPart> AllParts => this switch
    {
        Anything => [],
        AnyOf any => any.Parts,
        NoneOf none => none.Parts,
        _ => throw new UnreachableException(),
    };
}
