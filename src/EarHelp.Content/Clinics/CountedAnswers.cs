using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Editions;

namespace EarHelp.Content.Clinics;

/// <summary>Reads which answers the clinic counts among its figures.</summary>
static class CountedAnswers
{
    public const string Setting = "counted answers";

    public const string AmongSetting = "counted among";

    public static (ImmutableArray<string> Facts, string? Among) Read(Page page, Dialog dialog, ProblemList problems)
    {
        var (counted, among) = (page.Settings.Find(Setting), page.Settings.Find(AmongSetting));
        if (counted is null && among is null)
            return ([], null);
        if (counted is null || among is null)
        {
            var missing = counted is null ? Setting : AmongSetting;
            problems.Add(Codes.MissingSetting, (counted ?? among)!.Spot, $"The setting \"{missing}\" is missing.", "Write both, or none of them.");
            return ([], null);
        }

        string[] facts = counted.Value.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        foreach (var unknown in facts.Where(f => dialog.FindFact(f) is null))
            problems.AddUnknown(Codes.UnknownName, counted.ValueSpot, "fact", unknown, dialog.Facts.Select(f => f.Id));
        if (dialog.FindFact(among.Value) is not { IsYesNo: true })
            problems.AddUnknown(Codes.UnknownName, among.ValueSpot, "yes/no fact", among.Value, dialog.Facts.Where(f => f.IsYesNo).Select(f => f.Id));
        return ([.. facts], among.Value);
    }
}
