using EarHelp.Triage.Assessments;
using EarHelp.Triage.Editions;

namespace EarHelp.Cli.Describing;

/// <summary>One line on an edition without a fault, in figures.</summary>
public static class CheckSummary
{
    public static string Of(int files, Edition edition, Assessor assessor, int examples)
    {
        ArgumentNullException.ThrowIfNull(edition);
        ArgumentNullException.ThrowIfNull(assessor);
        var dialog = edition.Dialog;
        return FormattableString.Invariant(
            $"{files} files read, no fault: {dialog.Facts.Length} facts on {dialog.Screens.Length} screens, {dialog.Rules.Length} rules, {dialog.Advice.Length} advice items, {dialog.Levels.Length} levels, {examples} example patients, {edition.Wordings.Count} language(s), {assessor.NodeCount} diagram nodes. Edition {edition.Id[..12]}.");
    }
}
