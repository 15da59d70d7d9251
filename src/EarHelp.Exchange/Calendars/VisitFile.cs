using EarHelp.Clinic.Times;
using Ical.Net.CalendarComponents;
using NodaTime;
using Calendar = Ical.Net.Calendar;

namespace EarHelp.Exchange.Calendars;

/// <summary>One visit as a file for the patient's own calendar (RFC 5545). Whoever sees that calendar learns nothing about an ear.</summary>
/// <param name="Identifier">Stays the same when the visit is moved, and opens nothing.</param>
/// <param name="Version">Higher after each change, so that a calendar takes the later one.</param>
/// <param name="Title">Neutral words.</param>
public sealed record VisitFile(string Identifier, int Version, string Title, string Place, VisitTime Time, Instant WrittenAt)
{
    const string Maker = "-//EarHelp//Visit//EN";

    /// <summary>UTF-8 text with the line ends and the folding of the standard; every time is in UTC, which no calendar can misread.</summary>
    public string Write()
    {
        var calendar = new Calendar { ProductId = Maker };
        calendar.Events.Add(new CalendarEvent
        {
            Uid = Identifier + "@earhelp.invalid",
            DtStamp = CalendarText.At(WrittenAt),
            DtStart = CalendarText.At(Time.Start),
            DtEnd = CalendarText.At(Time.End),
            Summary = Title,
            Location = Place,
            Sequence = Version,
            Class = "PRIVATE",
        });
        return CalendarText.Of(calendar);
    }
}
