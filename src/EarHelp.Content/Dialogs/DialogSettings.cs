using System.Collections.Immutable;
using System.Globalization;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using NodaTime.Text;

namespace EarHelp.Content.Dialogs;

/// <summary>Reads the settings of the files of a dialog.</summary>
static class DialogSettings
{
    static readonly string[] Known = ["dialog", "title", "screens at most", "asked gently", "owner", "reviewed on", "review by"];

    public static (string Id, int ScreensAtMost) Read(IReadOnlyList<Page> pages, ProblemList problems)
    {
        foreach (var page in pages)
            KnownSettings.Report(page, Known, problems);
        var dialogs = pages.Select(p => p.Settings.Find("dialog")).OfType<Setting>().ToList();
        var most = dialogs.GroupBy(d => d.Value, StringComparer.Ordinal).MaxBy(g => g.Count())?.Key ?? "";
        foreach (var other in dialogs.Where(d => d.Value != most))
            problems.Add(Codes.WrongSetting, other.ValueSpot, $"The file belongs to the dialog \"{other.Value}\", and others to \"{most}\".", "An edition holds one dialog; write the same name.");
        return (most, ReadScreens(pages, dialogs.FirstOrDefault(), problems));
    }

    /// <summary>Facts of which the way to them does not count in how soon a person is told to call.</summary>
    public static ImmutableArray<string> ReadAskedGently(IReadOnlyList<Page> pages, IEnumerable<string> facts, ProblemList problems)
    {
        var known = facts.ToArray();
        var gently = ImmutableArray.CreateBuilder<string>();
        foreach (var setting in pages.Select(p => p.Settings.Find("asked gently")).OfType<Setting>())
        {
            foreach (var name in setting.Value.Split(',', StringSplitOptions.TrimEntries))
            {
                if (known.Contains(name))
                    gently.Add(name);
                else
                    problems.AddUnknown(Codes.WrongSetting, setting.ValueSpot, "fact", name, known);
            }
        }

        return gently.ToImmutable();
    }

    static int ReadScreens(IReadOnlyList<Page> pages, Setting? dialog, ProblemList problems)
    {
        var given = pages.Select(p => p.Settings.Find("screens at most")).OfType<Setting>().ToList();
        if (given.Count == 0)
        {
            if (dialog is not null)
                problems.Add(Codes.MissingSetting, dialog.Spot, $"Nothing says how long the dialog \"{dialog.Value}\" may be.", "Add \"screens at most: 30\" to one of its files.");
            return 0;
        }

        foreach (var second in given.Skip(1))
            problems.Add(Codes.DoubledName, second.Spot, $"\"screens at most\" is given twice; first at {given[0].Spot}.", "Keep one of them.");
        if (int.TryParse(given[0].Value, NumberStyles.None, CultureInfo.InvariantCulture, out var screens) && screens is > 0 and < 1000)
            return screens;
        problems.Add(Codes.WrongSetting, given[0].ValueSpot, $"\"{given[0].Value}\" is not a number of screens.", "Write a whole number, for example 30.");
        return 0;
    }
}

/// <summary>Reports settings that a file of its kind does not have.</summary>
static class KnownSettings
{
    static readonly string[] Dates = ["reviewed on", "review by"];

    public static void Report(Page page, string[] known, ProblemList problems)
    {
        foreach (var setting in page.Settings.All)
        {
            if (!known.Contains(setting.Name))
                problems.AddUnknown(Codes.UnknownSetting, setting.Spot, "setting", setting.Name, known);
            else if (setting.Value.Length == 0)
                problems.Add(Codes.WrongSetting, setting.Spot, $"The setting \"{setting.Name}\" is empty.", "Write its value after the colon, or take the line out.");
            else if (Dates.Contains(setting.Name) && !LocalDatePattern.Iso.Parse(setting.Value).Success)
                problems.Add(Codes.WrongDate, setting.ValueSpot, $"\"{setting.Value}\" is not a day.", "Write year, month and day: 2026-08-31.");
        }
    }
}
