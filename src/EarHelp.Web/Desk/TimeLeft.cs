using System.Globalization;
using EarHelp.Web.Pages;
using NodaTime;

namespace EarHelp.Web.Desk;

/// <summary>Says how long is left until a limit, or how late it is.</summary>
static class TimeLeft
{
    /// <summary>The largest two of days, hours and minutes, cut down: never more than is really left.</summary>
    internal static string Write(Words words, Instant limit, Instant now)
    {
        var left = limit - now;
        var isLate = left < Duration.Zero;
        if (isLate)
            left = -left;
        var minutes = (int)Math.Floor(left.TotalMinutes);
        var (days, hours) = (minutes / (24 * 60), minutes / 60 % 24);
        var amount = days > 0
            ? words.Letter.Text("desk days hours", ("days", Written(days)), ("hours", Written(hours)))
            : words.Letter.Text("desk hours minutes", ("hours", Written(hours)), ("minutes", Written(minutes % 60)));
        return words.Letter.Text(isLate ? "desk late" : "desk left", ("time", amount));
    }

    static string Written(int number) => number.ToString(CultureInfo.InvariantCulture);
}
