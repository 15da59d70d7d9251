using System.Text;
using EarHelp.Clinic.Times;
using EarHelp.Exchange.Calendars;
using NodaTime;

namespace EarHelp.Exchange.Tests.Calendars;

/// <summary>The file, byte by byte, as RFC 5545 wants it.</summary>
public sealed class VisitFileTests
{
    internal static readonly VisitFile Some = new(
        "a1b2c3",
        3,
        "Appointment, \"early\"; bring the plan\\letter\nand glasses. Ünïcödé ☂ 🕘 so that a line is folded inside of letters of two, three and four bytes",
        "14 Tidewell Lane, Hallowmere; second door",
        new VisitTime(Instant.FromUtc(2026, 11, 30, 10, 15), Instant.FromUtc(2026, 11, 30, 10, 45)),
        Instant.FromUtc(2026, 11, 26, 12, 0));

    static byte[] Bytes => Encoding.UTF8.GetBytes(Some.Write());

    static string Unfolded => Some.Write().Replace("\r\n ", "", StringComparison.Ordinal);

    /// <summary>RFC 5545, 3.1: lines end with CR LF.</summary>
    [Fact]
    public void Every_line_ends_with_both_signs_and_the_last_one_too()
    {
        var text = Some.Write();

        Assert.EndsWith("END:VCALENDAR\r\n", text, StringComparison.Ordinal);
        Assert.DoesNotMatch("(?<!\r)\n|\r(?!\n)", text);
    }

    /// <summary>RFC 5545, 3.1: no line has more than 75 octets, the break excluded, and no letter is cut in two.</summary>
    [Fact]
    public void No_line_is_longer_than_75_octets_and_no_letter_is_cut()
    {
        var start = 0;
        var strict = new UTF8Encoding(false, throwOnInvalidBytes: true);
        var bytes = Bytes;
        for (var i = 0; i < bytes.Length; i++)
        {
            if (bytes[i] != '\r')
                continue;
            Assert.InRange(i - start, 1, 75);
            strict.GetString(bytes, start, i - start);
            start = i + 2;
        }

        Assert.Contains("\r\n ", Some.Write(), StringComparison.Ordinal);
    }

    /// <summary>RFC 5545, 3.3.11: backslash, comma, semicolon and line break are escaped, quotation marks are not.</summary>
    [Fact]
    public void Text_is_escaped()
    {
        Assert.Contains("SUMMARY:Appointment\\, \"early\"\\; bring the plan\\\\letter\\nand glasses.", Unfolded, StringComparison.Ordinal);
        Assert.Contains("LOCATION:14 Tidewell Lane\\, Hallowmere\\; second door", Unfolded, StringComparison.Ordinal);
    }

    /// <summary>RFC 5545, 3.8.7.2 and 3.3.5 form 2: DTSTAMP is in UTC; so are start and end, which need no zone then.</summary>
    [Fact]
    public void Times_are_in_UTC_and_the_stamp_is_that_of_the_writing()
    {
        Assert.Contains("DTSTART:20261130T101500Z\r\n", Unfolded, StringComparison.Ordinal);
        Assert.Contains("DTEND:20261130T104500Z\r\n", Unfolded, StringComparison.Ordinal);
        Assert.Contains("DTSTAMP:20261126T120000Z\r\n", Unfolded, StringComparison.Ordinal);
        Assert.DoesNotContain("TZID", Unfolded, StringComparison.Ordinal);
    }

    /// <summary>RFC 5545, 3.6 and 3.8.4.7: VERSION, PRODID and a stable UID; 3.8.7.4: a later version has a higher SEQUENCE.</summary>
    [Fact]
    public void A_moved_visit_has_the_same_identifier_and_a_higher_sequence()
    {
        Assert.Contains("VERSION:2.0\r\n", Unfolded, StringComparison.Ordinal);
        Assert.Contains("PRODID:-//EarHelp//", Unfolded, StringComparison.Ordinal);
        Assert.Contains("UID:a1b2c3@earhelp.invalid\r\n", Unfolded, StringComparison.Ordinal);
        Assert.Contains("SEQUENCE:3\r\n", Unfolded, StringComparison.Ordinal);
        Assert.Equal(Some.Write(), Some.Write());
    }

    [Fact]
    public void Text_cannot_bring_a_property_of_its_own()
    {
        var trap = Some with { Title = "Appointment\r\nATTENDEE:mailto:x@example.org\rBEGIN:VALARM\nEND:VALARM" };

        Assert.DoesNotMatch("(?m)^(ATTENDEE|BEGIN:VALARM)", trap.Write().Replace("\r\n ", "", StringComparison.Ordinal).Replace('\r', '\n'));
    }
}
