using System.Collections.Immutable;
using EarHelp.Clinic.Times;
using Ical.Net;
using Ical.Net.CalendarComponents;
using Ical.Net.DataTypes;
using NodaTime;
using Calendar = Ical.Net.Calendar;

namespace EarHelp.Exchange.Calendars;

/// <summary>Reads when the clinic is busy from iCalendar text (RFC 5545): one-off and recurring events, whole days, in any zone.</summary>
public static class BusyCalendar
{
    /// <summary>An event that began so long before the span may still reach into it.</summary>
    const int LongestEventDays = 400;

    static readonly string[] WhenItIs = ["DTSTART", "DTEND", "DURATION", "RRULE", "RDATE", "RECURRENCE-ID"];

    /// <returns>With the LOCATION of each event, if it has one, as its room.</returns>
    /// <param name="text">One or more whole calendars.</param>
    /// <param name="zone">The clinic's: whole days, and times without a zone, are its own.</param>
    /// <exception cref="CalendarUnreadableException">A part of it cannot be read: then nobody knows when the clinic is busy.</exception>
    public static ImmutableArray<VisitTime> Read(string text, Instant from, Instant until, DateTimeZone zone)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(zone);
        var written = text.Trim('\uFEFF', ' ', '\t', '\r', '\n');
        if (!written.StartsWith("BEGIN:VCALENDAR", StringComparison.OrdinalIgnoreCase) || !written.EndsWith("END:VCALENDAR", StringComparison.OrdinalIgnoreCase))
            throw new CalendarUnreadableException("The calendar of busy times is not a whole iCalendar text: it must begin with BEGIN:VCALENDAR and end with END:VCALENDAR.");
        try
        {
            var busy = CalendarCollection.Load(written).SelectMany(c => Busy(c, from, until, zone)).Concat(FreeBusyLines.Read(written));
            return [.. busy.Where(b => b.Start < until && from < b.End)];
        }
        catch (Exception fault) when (fault is not OutOfMemoryException)
        {
            throw new CalendarUnreadableException("The calendar of busy times cannot be read: " + fault.GetType().Name + ".", fault);
        }
    }

    static IEnumerable<VisitTime> Busy(Calendar calendar, Instant from, Instant until, DateTimeZone zone)
    {
        foreach (var happening in calendar.Events)
            RefuseUnread(happening);
        var first = from.InZone(zone).LocalDateTime.PlusDays(-LongestEventDays).ToDateTimeUnspecified();
        var last = until.InZone(zone).LocalDateTime.PlusDays(2).ToDateTimeUnspecified();
        foreach (var happening in calendar.GetOccurrences<CalendarEvent>(new CalDateTime(first, "UTC")))
        {
            if (happening.Period.StartTime.Value > last)
                yield break;
            if (happening.Source is CalendarEvent { Transparency: not TransparencyType.Transparent, Status: not EventStatus.Cancelled } busy)
            {
                yield return new VisitTime(InstantOf(happening.Period.StartTime, zone), InstantOf(happening.Period.EffectiveEndTime ?? happening.Period.StartTime, zone))
                {
                    Room = busy.Location is { } place && !string.IsNullOrWhiteSpace(place) ? place.Trim() : null,
                };
            }
        }
    }

    /// <summary>Ical.Net leaves a value that it cannot read empty and says nothing: an event without its end would take no time.</summary>
    static void RefuseUnread(CalendarEvent happening)
    {
        if (happening.DtStart is null)
            throw new FormatException("An event has no start that can be read.");
        foreach (var property in happening.Properties)
        {
            if (property.Value is null && WhenItIs.Contains(property.Name, StringComparer.OrdinalIgnoreCase))
                throw new FormatException($"An event has a {property.Name} that cannot be read.");
        }
    }

    static Instant InstantOf(CalDateTime time, DateTimeZone zone)
    {
        var local = LocalDateTime.FromDateTime(time.Value);
        if (!time.HasTime)
            return zone.AtStartOfDay(local.Date).ToInstant();
        return time.TzId is null ? zone.AtLeniently(local).ToInstant() : Instant.FromDateTimeUtc(time.AsUtc);
    }
}
