using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Cells;

namespace EarHelp.Content.Dialogs;

/// <summary>Checks the names of settings.</summary>
static class SettingChecks
{
    public static void Report(Page page, string[] known, ProblemList problems)
    {
        foreach (var setting in page.Settings.Where(s => !known.Contains(s.Name, StringComparer.Ordinal)))
        {
            var near = NearestName.To(setting.Name, known);
            problems.Add(
                Codes.UnknownSetting,
                setting.Spot,
                $"There is no setting \"{setting.Name}\".",
                (near is null ? string.Empty : $"Did you mean \"{near}\"? ") + $"The settings of this page are: {string.Join(", ", known)}.");
        }
    }
}
