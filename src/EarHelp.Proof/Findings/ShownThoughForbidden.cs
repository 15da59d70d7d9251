using System.Collections.Immutable;
using System.Numerics;
using EarHelp.Proof.Patients;
using EarHelp.Triage.Texts;

namespace EarHelp.Proof.Findings;

/// <summary>An item is shown to somebody whom an answer, or a missing one, forbids it.</summary>
/// <param name="Forbids">What forbids it, as written.</param>
public sealed record ShownThoughForbidden(string Item, string Forbids, ImmutableArray<SourceSpot> Rows, ExamplePatient Shown, BigInteger Patients) : Finding(Rows, Shown, Patients)
{
    public override string Breaks => PropertyNames.NoHarm;

    public override string Fault => $"\"{Item}\" is shown to people whom {Forbids} may forbid it.";

    public override string Mend =>
        "Make it an item to do, which is shown only if every possible answer allows it, or move the condition into \"only if\".";
}

/// <summary>Two rows that match together give and withhold one item.</summary>
public sealed record GivenAndWithheld(string Item, string Giving, string Withholding, ImmutableArray<SourceSpot> Rows, ExamplePatient Shown, BigInteger Patients) : Finding(Rows, Shown, Patients)
{
    public override string Breaks => PropertyNames.Agree;

    public override string Fault => $"Rule \"{Giving}\" gives \"{Item}\" and rule \"{Withholding}\" withholds it from the same people.";

    public override string Mend => "Take it out of one of the two columns, or let the rows match different people.";
}
