using System.Collections.Immutable;
using Ical.Net.CalendarComponents;
using Ical.Net.DataTypes;
using NodaTime;
using Calendar = Ical.Net.Calendar;

namespace EarHelp.Exchange.Calendars;

/// <summary>Days on which a patient looks at a plan, as whole days in their own calendar (RFC 5545). Whoever sees that calendar learns nothing about an ear.</summary>
/// <param name="Identifier">Stays the same when the file is fetched again, and opens nothing.</param>
/// <param name="Title">Neutral words.</param>
public sealed record PlanFile(string Identifier, string Title, ImmutableArray<LocalDate> Days, Instant WrittenAt)
{
    const string Maker = "-//EarHelp//Plan//EN";

    /// <summary>UTF-8 text with the line ends and the folding of the standard.</summary>
    public string Write()
    {
        var calendar = new Calendar { ProductId = Maker };
        foreach (var (number, day) in Days.Index())
        {
            calendar.Events.Add(new CalendarEvent
            {
                Uid = $"{Identifier}-{number}@earhelp.invalid",
                DtStamp = CalendarText.At(WrittenAt),
                DtStart = On(day),
                DtEnd = On(day.PlusDays(1)),
                Summary = Title,
                Class = "PRIVATE",
                Transparency = "TRANSPARENT",
            });
        }

        return CalendarText.Of(calendar);
    }

    static CalDateTime On(LocalDate day) => new(day.Year, day.Month, day.Day);
}
