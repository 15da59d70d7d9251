using System.Collections.Immutable;
using System.Numerics;
using EarHelp.Proof.Patients;
using EarHelp.Triage.Texts;

namespace EarHelp.Proof.Findings;

/// <summary>One thing that a proof found wrong with an edition.</summary>
/// <param name="Rows">Where the rows involved are written; the first is the one to look at first.</param>
/// <param name="Shown">The smallest patient that shows it, or null if no patient does.</param>
/// <param name="Patients">How many possible patients it touches, exactly.</param>
public abstract record Finding(ImmutableArray<SourceSpot> Rows, ExamplePatient? Shown, BigInteger Patients)
{
    /// <summary>The property, or the check of one table, that does not hold.</summary>
    public abstract string Breaks { get; }

    /// <summary>One sentence.</summary>
    public abstract string Fault { get; }

    /// <summary>One sentence.</summary>
    public abstract string Mend { get; }

    /// <summary>True for what cannot harm; the README says why of each.</summary>
    public virtual bool IsNotice => false;

    public sealed override string ToString()
    {
        var spot = Rows.IsEmpty ? "" : $"{Rows[0]}: ";
        var others = Rows.Length > 1 ? $" With {string.Join(", ", Rows.Skip(1).Select(r => $"{r.File}:{r.Line}"))}." : "";
        var shown = Shown is null ? "" : $" Example: {Shown.InWords} ({Amount.InWords(Patients)} patients).";
        return $"{spot}{(IsNotice ? "notice" : "error")} {Breaks}: {Fault}{shown}{others} {Mend}";
    }
}
