using EarHelp.Clinic.Times;
using NodaTime;
using NodaTime.Text;

namespace EarHelp.Exchange.Calendars;

/// <summary>
/// The periods of FREEBUSY properties (RFC 5545, 3.8.2.6), read here because Ical.Net gives back none of them. They are in UTC by the standard.
/// </summary>
static class FreeBusyLines
{
    const string Property = "FREEBUSY";

    static readonly InstantPattern Moment = InstantPattern.CreateWithInvariantCulture("yyyyMMdd'T'HHmmss'Z'");

    /// <param name="text">A whole calendar, with folded lines.</param>
    /// <exception cref="FormatException">A period cannot be read.</exception>
    public static IEnumerable<VisitTime> Read(string text)
    {
        var unfolded = text.Replace("\r\n", "\n", StringComparison.Ordinal).Replace("\n ", "", StringComparison.Ordinal).Replace("\n\t", "", StringComparison.Ordinal);
        foreach (var line in unfolded.Split('\n'))
        {
            var colon = line.IndexOf(':', StringComparison.Ordinal);
            if (colon < 0)
                continue;
            var names = line[..colon].ToUpperInvariant().Split(';');
            if (names[0] != Property || names.Contains("FBTYPE=FREE"))
                continue;
            foreach (var period in line[(colon + 1)..].Split(','))
                yield return ReadPeriod(period.Trim());
        }
    }

    static VisitTime ReadPeriod(string period)
    {
        var parts = period.Split('/');
        if (parts.Length != 2)
            throw new FormatException("A period of FREEBUSY has two parts.");
        var start = Moment.Parse(parts[0]).GetValueOrThrow();
        return new VisitTime(start, parts[1].StartsWith('P')
            ? start + PeriodPattern.NormalizingIso.Parse(parts[1]).GetValueOrThrow().ToDuration()
            : Moment.Parse(parts[1]).GetValueOrThrow());
    }
}
