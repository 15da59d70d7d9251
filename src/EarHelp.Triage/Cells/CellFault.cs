namespace EarHelp.Triage.Cells;

/// <summary>What is wrong with a cell, in the words of those who write tables.</summary>
/// <param name="Offset">Where in the cell, from 0.</param>
/// <param name="Mend">How to put it right.</param>
public sealed record CellFault(CellFaultKind Kind, int Offset, string Fault, string Mend);

public enum CellFaultKind
{
    /// <summary>The cell cannot be read.</summary>
    Unreadable,

    /// <summary>A name or text that is not one of the fact's values.</summary>
    UnknownValue,

    /// <summary>A number outside the fact's range, or between its steps.</summary>
    OutOfRange,

    /// <summary>No value, or for a "not" no other value, satisfies the cell.</summary>
    NeverTrue,
}

/// <summary>A cell that was read: a test, or what is wrong with it. Exactly one of the two is set.</summary>
public sealed record CellReading(UnaryTest? Test, CellFault? Fault)
{
    public static CellReading Of(UnaryTest test) => new(test, null);

    public static CellReading Failed(CellFault fault) => new(null, fault);
}
