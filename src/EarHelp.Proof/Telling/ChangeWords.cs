using System.Diagnostics;
using EarHelp.Proof.Comparing;

namespace EarHelp.Proof.Telling;

/// <summary>What a kind of change is called, for those who approve one.</summary>
static class ChangeWords
{
    public static string Heading(ChangeKind kind) => kind switch
    {
        ChangeKind.NewlyImpossible => "Newly taken to be impossible",
        ChangeKind.LessUrgent => "Less urgent",
        ChangeKind.AdviceWidened => "Advice to do something, shown to more people",
        ChangeKind.ProtectionLost => "Advice that protects, shown to fewer people",
        ChangeKind.WarningLost => "Warnings, shown to fewer people",
        ChangeKind.TreatChanged => "Whether the clinic may treat",
        ChangeKind.WhereChanged => "Another place to go, at the same level",
        ChangeKind.QuestionLost => "Questions, asked of fewer people",
        ChangeKind.NewlyPossible => "No longer taken to be impossible",
        ChangeKind.MoreUrgent => "More urgent",
        ChangeKind.AdviceNarrowed => "Advice to do something, shown to fewer people",
        ChangeKind.ProtectionAdded => "Advice that protects, shown to more people",
        ChangeKind.WarningAdded => "Warnings, shown to more people",
        ChangeKind.QuestionAdded => "Questions, asked of more people",
        ChangeKind.ExplanationChanged => "Explanations",
        _ => throw new UnreachableException(),
    };

    public static string Nothing => "These two editions tell everybody the same: no result and no text changes for anyone.";

    public static string Summary(EditionComparison comparison) => comparison.Bound is { } bound
        ? $"The comparison could not finish, and nothing was shown: {bound}"
        : comparison.ChangesNothing
            ? Nothing
            : $"The result changes for {Patients.Amount.InWords(comparison.Changed)} of {Patients.Amount.InWords(comparison.Patients)} possible patients; {comparison.Decreases.Length} decrease(s) of urgency to confirm; {comparison.Texts.Length} text(s) changed.";
}
