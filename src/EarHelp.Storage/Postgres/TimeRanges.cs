using System.Globalization;
using EarHelp.Clinic.Requests;
using EarHelp.Clinic.Times;

namespace EarHelp.Storage.Postgres;

/// <summary>Times of requests as PostgreSQL writes several ranges: <c>{[1,2),[3,4)}</c>, in ticks (100 ns) since 1970.</summary>
static class TimeRanges
{
    public static string Of(IEnumerable<VisitTime> times) =>
        "{" + string.Join(',', times.Select(t => string.Create(CultureInfo.InvariantCulture, $"[{t.Start.ToUnixTimeTicks()},{t.End.ToUnixTimeTicks()})"))) + "}";

    public static string Booked(VisitRequest request) => Of(request.Booked is { } booked ? [booked] : []);

    public static long HeldUntil(VisitRequest request) => request.Held?.Until.ToUnixTimeTicks() ?? 0;
}
