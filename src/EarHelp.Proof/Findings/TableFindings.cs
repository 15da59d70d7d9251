using System.Collections.Immutable;
using System.Numerics;
using EarHelp.Proof.Patients;
using EarHelp.Triage.Texts;

namespace EarHelp.Proof.Findings;

/// <summary>What is checked of each table by itself.</summary>
public static class TableFindings
{
    public const string Gap = "gap", Overlap = "overlap", NeverDecides = "never decides", Column = "column", Outside = "outside", Merge = "merge";
}

/// <summary>No row of a named fact's table fits somebody.</summary>
public sealed record NoRowFits(string Table, ImmutableArray<SourceSpot> Rows, ExamplePatient Shown, BigInteger Patients) : Finding(Rows, Shown, Patients)
{
    public override string Breaks => TableFindings.Gap;

    public override string Fault => $"No row of \"{Table}\" fits some patients.";

    public override string Mend => "Add a row for them, or a last row with - in every condition.";
}

/// <summary>Two rows fit the same people, which the table's hit policy does not allow.</summary>
public sealed record RowsOverlap(string Table, string Policy, ImmutableArray<SourceSpot> Rows, ExamplePatient Shown, BigInteger Patients) : Finding(Rows, Shown, Patients)
{
    public override string Breaks => TableFindings.Overlap;

    public override string Fault => $"Two rows of \"{Table}\" fit the same people, and its hit policy says: {Policy}.";

    public override string Mend => "Narrow one of the rows, or choose another hit policy.";
}

/// <summary>A row is never the only one to supply a level, a destination, an item or a warning.</summary>
/// <param name="SaidBy">Rows that say the same for somebody who meets it.</param>
public sealed record NeverDecides(string Rule, string SaidBy, bool IsOfNamedFact, ImmutableArray<SourceSpot> Rows, ExamplePatient Shown, BigInteger Patients) : Finding(Rows, Shown, Patients)
{
    public override string Breaks => TableFindings.NeverDecides;

    public override string Fault => $"Row \"{Rule}\" never decides anything by itself; {SaidBy} already says so.";

    public override string Mend => IsOfNamedFact ? "Nothing need be done; the row may also be taken out." : $"Write {SaidBy} into the column **also said by**, or take the row out.";

    /// <summary>A second reason for a named fact makes nobody less urgent.</summary>
    public override bool IsNotice => IsOfNamedFact;
}

/// <summary>A condition column that tells nobody apart.</summary>
/// <param name="Repeats">The column only says again what the other cells of its rows, or when their facts apply, already say.</param>
public sealed record ColumnNeverMatters(string Table, string Column, bool Repeats, ImmutableArray<SourceSpot> Rows) : Finding(Rows, null, BigInteger.Zero)
{
    public override string Breaks => TableFindings.Column;

    public override string Fault => $"The column \"{Column}\" of \"{Table}\" never matters: without it the same patients meet the same rows.";

    public override string Mend => Repeats ? "It repeats what the other cells of its rows say; nothing need be done." : "Take the column out.";

    /// <summary>A row that repeats a condition is easier to read, and stays as narrow if the other cells change.</summary>
    public override bool IsNotice => Repeats;
}

/// <summary>A cell asks for values that the fact does not have.</summary>
public sealed record ValueOutside(string Fact, string Cell, ImmutableArray<SourceSpot> Rows) : Finding(Rows, null, BigInteger.Zero)
{
    public override string Breaks => TableFindings.Outside;

    public override string Fault => $"No value of \"{Fact}\" meets {Cell}.";

    public override string Mend => "Write a value that the fact has, or widen its values.";
}

/// <summary>Two rows conclude the same and differ in one cell.</summary>
public sealed record CouldBeMerged(string One, string Other, string Column, ImmutableArray<SourceSpot> Rows) : Finding(Rows, null, BigInteger.Zero)
{
    public override string Breaks => TableFindings.Merge;

    public override string Fault => $"Rows \"{One}\" and \"{Other}\" conclude the same and differ only in \"{Column}\".";

    public override string Mend => $"Make one row of them, with both cells of \"{Column}\" separated by a comma.";
}
