using System.Collections.Immutable;
using System.Globalization;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using NodaTime;
using NodaTime.Text;

namespace EarHelp.Content.Clinics;

/// <summary>Reads on which days after a visit the patient is asked how it is, and between which times messages are sent.</summary>
static class CheckInTimes
{
    public const string Days = "check-in days";

    public const string Reminder = "reminder days";

    public const string From = "messages from";

    public const string To = "messages to";

    static readonly LocalTimePattern Written = LocalTimePattern.CreateWithInvariantCulture("HH:mm");

    /// <summary>Empty if it is left out.</summary>
    public static ImmutableArray<int> ReadDays(Page page, ProblemList problems)
    {
        if (page.Settings.Find(Days) is not { } setting)
            return [];
        var days = setting.Value.Split(',', StringSplitOptions.TrimEntries)
            .Select(d => int.TryParse(d, NumberStyles.None, CultureInfo.InvariantCulture, out var day) ? day : 0).ToImmutableArray();
        if (days.All(d => d > 0) && days.Zip(days.Skip(1)).All(d => d.First < d.Second))
            return days;
        problems.Add(Codes.WrongSetting, setting.ValueSpot, $"\"{setting.Value}\" is no list of days in order, from 1.", "Write whole numbers with commas, for example 1, 3, 7.");
        return [];
    }

    /// <param name="otherwise">If it is left out.</param>
    public static LocalTime ReadTime(Page page, string name, LocalTime otherwise, ProblemList problems)
    {
        if (page.Settings.Find(name) is not { } setting)
            return otherwise;
        if (Written.Parse(setting.Value) is { Success: true, Value: var time })
            return time;
        problems.Add(Codes.WrongSetting, setting.ValueSpot, $"\"{setting.Value}\" is not a time of day.", "Write hours and minutes in quotes, for example \"09:00\".");
        return otherwise;
    }
}
