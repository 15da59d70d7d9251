using System.Collections.Immutable;
using System.Numerics;
using EarHelp.Proof.Patients;

namespace EarHelp.Proof.Comparing;

/// <summary>What changes for a group of patients, the most dangerous kind first.</summary>
public enum ChangeKind
{
    /// <summary>Their answers cannot stand together any more, so that nothing is decided or proven for them.</summary>
    NewlyImpossible,

    LessUrgent,

    /// <summary>An item to do is newly shown.</summary>
    AdviceWidened,

    /// <summary>An item to leave alone, to get help or to protect is no longer shown.</summary>
    ProtectionLost,

    WarningLost,

    /// <summary>The clinic may treat, or something else has to happen first.</summary>
    TreatChanged,

    WhereChanged,

    QuestionLost,

    NewlyPossible,

    MoreUrgent,

    AdviceNarrowed,

    ProtectionAdded,

    WarningAdded,

    QuestionAdded,

    ExplanationChanged,
}

/// <summary>One kind of change.</summary>
/// <param name="Id">Of a decrease: what an approver confirms it by; another one as soon as the group or its size changes. Else null.</param>
/// <param name="Before">What it was; of something that is shown or asked: its name.</param>
/// <param name="After">What it is, or null if <paramref name="Before"/> names what comes or goes.</param>
/// <param name="Steps">How many levels are between; 0 if the level does not change.</param>
/// <param name="ToldBefore">What the example patient was told, in brief.</param>
/// <param name="Causes">The edited rows that make the difference.</param>
public sealed record Change(
    ChangeKind Kind,
    string? Id,
    string Before,
    string? After,
    int Steps,
    BigInteger Patients,
    ExamplePatient Shown,
    string ToldBefore,
    string ToldAfter,
    ImmutableArray<Edit> Causes)
{
    /// <summary>"within a day -&gt; in two weeks"</summary>
    public string Title => After is null ? Before : $"{Before} -> {After}";
}
