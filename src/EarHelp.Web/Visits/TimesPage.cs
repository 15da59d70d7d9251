using System.Collections.Immutable;
using System.Globalization;
using EarHelp.Clinic.Times;
using EarHelp.Conversation.Replies;
using EarHelp.Web.Markup;
using EarHelp.Web.Pages;
using NodaTime;

namespace EarHelp.Web.Visits;

/// <summary>Free times by day, each a button; or that there is none, and where to go instead.</summary>
static class TimesPage
{
    internal const string Start = "start";

    internal const string After = "after";

    /// <summary>As many as a person can look over; the rest is behind a link.</summary>
    internal const int MostShown = 24;

    /// <param name="times">Null: nobody can tell now.</param>
    /// <param name="limit">The time by which someone should look, or null.</param>
    /// <param name="isGone">True: the time that was chosen has just been taken.</param>
    internal static ReadOnlyMemory<byte> Write(
        Words words, ImmutableArray<VisitTime>? times, Instant? limit, OutcomeTold told, bool isGone, bool isLater, string token, string turn, Instant now) =>
        PageFrame.Write(words, new PageState(words["visit times heading"], token, HasQuestion: false), html =>
        {
            html.Element("h1"u8, words["visit times heading"]);
            if (isGone)
                html.Markup("<p class=\"fault\" id=\"faults\" role=\"alert\" tabindex=\"-1\">"u8).Text(words["visit time gone"]).Markup("</p>"u8);
            if (times is { IsEmpty: false } some)
                WriteTimes(html, words, some, limit, token, turn);
            else
                WriteNone(html, words, times is null ? "visit times unknown" : isLater ? "visit times no later" : "visit times none", told, now);
            html.Markup("<p><a class=\"button quiet\" href=\"/visit\">"u8).Text(words["back"]).Markup("</a></p>"u8);
        });

    static void WriteTimes(HtmlWriter html, Words words, ImmutableArray<VisitTime> times, Instant? limit, string token, string turn)
    {
        var zone = words.Edition.Clinic.Zone;
        var minutes = ((int)(times[0].End - times[0].Start).TotalMinutes).ToString(CultureInfo.InvariantCulture);
        html.Element("p"u8, words.Letter.Text("visit times hint", ("minutes", minutes)));
        if (limit is { } by)
            html.Element("p"u8, words.Letter.Text("visit times before", ("moment", words.Letter.Moment(by))));
        html.Markup("<form method=\"post\" action=\"/visit/hold\">"u8);
        FormFields.WriteToken(html, token);
        FormFields.WriteTurn(html, turn);
        foreach (var day in times.GroupBy(t => t.Start.InZone(zone).Date))
        {
            html.Element("h2"u8, words.Letter.Date(day.Key));
            html.Markup("<ul class=\"times\">"u8);
            foreach (var time in day)
            {
                var start = time.Start.InZone(zone);
                html.Markup("<li><button class=\"quiet\" name=\"start\""u8)
                    .Attribute("value"u8, time.Start.ToUnixTimeMilliseconds().ToString(CultureInfo.InvariantCulture))
                    .Attribute("aria-label"u8, words.Letter.Text("visit time label", ("time", words.Letter.Time(start.TimeOfDay)), ("date", words.Letter.Date(start.Date))))
                    .Markup(">"u8).Text(words.Letter.Time(start.TimeOfDay)).Markup("</button></li>"u8);
            }

            html.Markup("</ul>"u8);
        }

        html.Markup("</form>"u8);
        if (times.Length == MostShown)
        {
            html.Markup("<p><a"u8).Attribute("href"u8, $"/visit/times?{After}={times[^1].Start.ToUnixTimeMilliseconds().ToString(CultureInfo.InvariantCulture)}")
                .Markup(">"u8).Text(words["visit times later"]).Markup("</a></p>"u8);
        }
    }

    static void WriteNone(HtmlWriter html, Words words, string key, OutcomeTold told, Instant now)
    {
        html.Markup("<p><strong>"u8).Text(words[key]).Markup("</strong></p>"u8).Element("p"u8, words["visit times instead"]);
        RequestPages.WriteIfNobodyAnswers(html, words, told, now);
    }
}
