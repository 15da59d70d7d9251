using System.Buffers.Binary;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using EarHelp.Clinic.Requests;
using EarHelp.Clinic.Times;

namespace EarHelp.Storage.Postgres;

/// <summary>
/// Times of requests as PostgreSQL writes several ranges: <c>{[1,2),[3,4)}</c>. A time of the whole clinic is in ticks (100 ns) since 1970. One of a
/// clinician and a room is two ranges in milliseconds, each in a stretch of numbers that no other name has, beyond all ticks: so two ranges overlap
/// only if a person or a room would have two visits at once. That one of the whole clinic keeps everybody is seen by who takes a time, before it is written.
/// </summary>
static class TimeRanges
{
    /// <summary>Ticks reach it in the year 6536 only.</summary>
    const long FirstStretch = 1L << 57;

    /// <summary>Milliseconds of the years 1970 to 2109.</summary>
    const int BitsOfStretch = 42;

    const int BitsOfName = 20;

    public static string Of(IEnumerable<VisitTime> times) => "{" + string.Join(',', times.SelectMany(Ranges)) + "}";

    public static string Booked(VisitRequest request) => Of(request.Booked is { } booked ? [booked] : []);

    public static long HeldUntil(VisitRequest request) => request.Held?.Until.ToUnixTimeTicks() ?? 0;

    static IEnumerable<string> Ranges(VisitTime time)
    {
        if (time is { By: null, Room: null })
            yield return Range(time.Start.ToUnixTimeTicks(), time.End.ToUnixTimeTicks());
        if (time.By is { } by)
            yield return Range(time, "by " + by);
        if (time.Room is { } room)
            yield return Range(time, "in " + room);
    }

    static string Range(VisitTime time, string name)
    {
        var stretch = FirstStretch + ((long)(BinaryPrimitives.ReadUInt32BigEndian(SHA256.HashData(Encoding.UTF8.GetBytes(name))) >> (32 - BitsOfName)) << BitsOfStretch);
        return Range(stretch + time.Start.ToUnixTimeMilliseconds(), stretch + time.End.ToUnixTimeMilliseconds());
    }

    static string Range(long from, long to) => string.Create(CultureInfo.InvariantCulture, $"[{from},{to})");
}
