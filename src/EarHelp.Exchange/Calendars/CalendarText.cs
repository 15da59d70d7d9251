using Ical.Net.DataTypes;
using Ical.Net.Serialization;
using NodaTime;
using Calendar = Ical.Net.Calendar;

namespace EarHelp.Exchange.Calendars;

/// <summary>What files for a patient's own calendar have in common.</summary>
static class CalendarText
{
    /// <summary>UTF-8 text with the line ends and the folding of RFC 5545.</summary>
    public static string Of(Calendar calendar) =>
        new CalendarSerializer().SerializeToString(calendar) ?? throw new InvalidOperationException("The calendar could not be written.");

    /// <summary>In UTC, which no calendar can misread.</summary>
    public static CalDateTime At(Instant at) => new(at.ToDateTimeUtc(), "UTC");
}
