using System.Globalization;
using EarHelp.Triage.Editions;
using NodaTime;

namespace EarHelp.Conversation.Telling;

/// <summary>Says dates and times in words, in the clinic's time zone, which is named.</summary>
sealed class TimeWords(Clinic clinic, Wording wording)
{
    readonly string _zone = wording.Interface.TryGetValue("zone " + clinic.Zone.Id, out var named)
        ? named
        : Fill(wording.Interface.GetValueOrDefault("zone other", string.Empty), name => name == "place" ? clinic.Town : string.Empty);

    /// <summary>Cut to the minute, so that a limit is never told later than it is.</summary>
    public string Moment(Instant at)
    {
        var local = at.InZone(clinic.Zone).LocalDateTime;
        return Fill(Word("moment"), name => name switch
        {
            "time" => Time(local.TimeOfDay),
            "date" => Date(local.Date),
            "zone" => _zone,
            _ => string.Empty,
        });
    }

    public string Date(LocalDate date) => Fill(Word("date in words"), name => name switch
    {
        "weekday" => Word(date.DayOfWeek.ToString()),
        "day" => Figure(date.Day),
        "month" => Word("month " + Figure(date.Month)),
        "year" => Figure(date.Year),
        _ => string.Empty,
    });

    /// <summary>In twelve hours if the words have a place for the half of the day, else in twenty-four.</summary>
    public string Time(LocalTime time)
    {
        var template = Word("time in words");
        var isHalved = template.Contains("{half}", StringComparison.Ordinal);
        return Fill(template, name => name switch
        {
            "hour" => Figure(isHalved ? time.ClockHourOfHalfDay : time.Hour),
            "minute" => time.Minute.ToString("00", CultureInfo.InvariantCulture),
            "half" => Word(time.Hour < 12 ? "before noon" : "after noon"),
            _ => string.Empty,
        });
    }

    static string Figure(int number) => number.ToString(CultureInfo.InvariantCulture);

    static string Fill(string template, Func<string, string?> valueOf) => new Filling(isSelf: true, valueOf).Fill(template);

    string Word(string key) => wording.Interface.GetValueOrDefault(key, key);
}
