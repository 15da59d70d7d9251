using System.Collections.Immutable;
using System.Globalization;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Editions;

namespace EarHelp.Content.Dialogs;

/// <summary>Makes a dialog of the pages in <c>dialogs/</c>.</summary>
static class DialogCompiler
{
    static readonly string[] KnownSettings = ["dialog", "title", "screens at most", "owner", "reviewed on", "review by"];

    public static (Dialog Dialog, DialogDraft Draft) Compile(ImmutableArray<Page> pages, ProblemList problems)
    {
        var draft = new DialogDraft(pages, problems);
        TableKind.ReportSlips(pages, problems);
        var (id, screensAtMost) = ReadSettings(pages, problems);
        PlacesReader.ReadSources(draft);
        PlacesReader.ReadLevels(draft);
        PlacesReader.ReadDestinations(draft);
        FactsReader.Read(draft);
        NamedFactsReader.Read(draft);
        PlacesReader.ReadReach(draft);
        ScreensReader.Read(draft);
        AdviceReader.ReadAdvice(draft);
        AdviceReader.ReadExplanations(draft);
        AdviceReader.ReadImpossible(draft);
        RulesReader.Read(draft);
        SourceCells.ReportUnused(draft);
        DialogChecks.Check(draft);
        var dialog = new Dialog(
            id,
            screensAtMost,
            [.. draft.Facts],
            [.. draft.NamedFacts],
            [.. draft.Screens],
            [.. draft.Rules],
            [.. draft.TreatRules],
            [.. draft.Advice.Values],
            [.. draft.Explanations.Values],
            [.. draft.Impossible],
            [.. draft.Levels.Values],
            [.. draft.Destinations.Values.OrderBy(d => d.Index)]);
        return (dialog, draft);
    }

    static (string Id, int ScreensAtMost) ReadSettings(ImmutableArray<Page> pages, ProblemList problems)
    {
        string? id = null;
        int? most = null;
        foreach (var page in pages.Where(p => p.IsDialogs))
        {
            SettingChecks.Report(page, KnownSettings, problems);
            if (page.Find("dialog") is { } named)
            {
                id ??= named.Value;
                if (named.Value != id)
                    problems.Add(Codes.BadSettingValue, named.Spot, $"The page belongs to a dialog \"{named.Value}\", others to \"{id}\".", "One edition holds one dialog: write the same name.");
            }

            if (page.Find("screens at most") is { } bound)
            {
                if (int.TryParse(bound.Value, NumberStyles.None, CultureInfo.InvariantCulture, out var read) && read > 0 && most is null)
                    most = read;
                else
                    problems.Add(Codes.BadSettingValue, bound.Spot, $"\"screens at most: {bound.Value}\" stands twice or is no number.", "Write it once, as a whole number.");
            }
        }

        if (id is null)
            problems.Add(Codes.NoDialog, new("dialogs", 1, 1), "No page says to which dialog it belongs.", "Write \"dialog: name\" in the settings of each page of the dialog.");
        else if (most is null)
            problems.Add(Codes.MissingSetting, pages.First(p => p.Find("dialog") is not null).Top, "No page says how long the longest way may be.", "Write \"screens at most: 30\" in the settings of one page.");
        return (id ?? string.Empty, most ?? 0);
    }
}
