using EarHelp.Clinic.CheckIns;
using EarHelp.Clinic.Times;
using EarHelp.Web.AfterVisit;
using EarHelp.Web.Markup;
using EarHelp.Web.Pages;
using NodaTime;

namespace EarHelp.Web.CheckIns;

/// <summary>Pages with one decision each: opening a message's link, how it is, stopping the messages.</summary>
static class CheckInPage
{
    internal const string Link = "secret", Answer = "answer", Well = "well";

    internal static ReadOnlyMemory<byte> WriteLink(Words words, string link, string token) =>
        PageFrame.Write(words, new PageState(words["check-in link heading"], null, HasQuestion: false), html =>
        {
            html.Element("h1"u8, words["check-in link heading"]).Element("p"u8, words["check-in link hint"]).Markup("<form method=\"post\""u8).Attribute("action"u8, CheckInPages.Opening).Markup(">"u8);
            FormFields.WriteToken(html, token);
            html.Markup("<input type=\"hidden\" name=\"secret\""u8).Attribute("value"u8, link).Markup("><p><button>"u8).Text(words["check-in link open"]).Markup("</button></p></form>"u8);
        });

    /// <summary>What was answered on this day can be answered otherwise.</summary>
    internal static ReadOnlyMemory<byte> WriteQuestion(Words words, OpenCheckIn open, string token, string turn)
    {
        var isWell = open.Reply?.IsWell == true;
        var heading = words[isWell ? "check-in thanks heading" : "check-in heading"];
        return PageFrame.Write(words, new PageState(heading, token, HasQuestion: false), html =>
        {
            html.Element("h1"u8, heading);
            if (isWell)
                html.Element("p"u8, Ahead(words, open)).Element("p"u8, words["check-in thanks hint"]);
            else
                html.Element("p"u8, words.Letter.Text("check-in hint", ("day", VisitDay(words, open)))).Element("p"u8, words["check-in unsure"]);
            WriteForm(html, words, isWell ? null : (Well, "check-in well"), token, turn);
            html.Markup("<p><a"u8).Attribute("href"u8, AftercarePages.Address).Markup(">"u8).Text(words["aftercare open"]).Markup("</a></p>"u8);
        });
    }

    /// <summary>Before a visit that is booked: whether anything has changed.</summary>
    internal static ReadOnlyMemory<byte> WriteBefore(Words words, VisitTime booked, string token, string turn)
    {
        var heading = words.Letter.Text("check-in before heading", ("moment", words.Letter.Moment(booked.Start)));
        return PageFrame.Write(words, new PageState(heading, token, HasQuestion: false), html =>
        {
            html.Element("h1"u8, heading).Element("p"u8, words["check-in before hint"]);
            WriteForm(html, words, (Well, "check-in before same"), token, turn);
            html.Markup("<p><a href=\"/visit\">"u8).Text(words["check-in before change"]).Markup("</a></p>"u8);
        });
    }

    /// <summary>On the plan after the visit: the way to the question, while it is asked.</summary>
    internal static void WriteWay(HtmlWriter html, Words words, OpenCheckIn? open)
    {
        if (open is null)
            return;
        html.Markup("<section class=\"note\" id=\"check-in\"><h2>"u8).Text(words["check-in heading"]).Markup("</h2><p>"u8)
            .Text(open.Reply is { IsWell: true } ? words["check-in answered"] : words.Letter.Text("check-in hint", ("day", VisitDay(words, open))))
            .Markup("</p><p><a class=\"button\""u8).Attribute("href"u8, CheckInPages.Address).Markup(">"u8).Text(words["check-in answer"]).Markup("</a></p></section>"u8);
    }

    internal static ReadOnlyMemory<byte> WriteStop(Words words, FollowUp asked)
    {
        var heading = words[asked.IsStopped ? "check-in stopped heading" : "check-in stop heading"];
        return PageFrame.Write(words, new PageState(heading, null, HasQuestion: false), html =>
        {
            html.Element("h1"u8, heading).Element("p"u8, words[asked.IsStopped ? "check-in stopped" : "check-in stop hint"]);
            if (!asked.IsStopped)
                html.Markup("<form method=\"post\""u8).Attribute("action"u8, CheckInPages.StopAddress(asked.StopCode)).Markup("><p><button>"u8).Text(words["check-in stop"]).Markup("</button></p></form>"u8);
        });
    }

    /// <param name="first">The answer that stands before "not well", with its words; null: it was given.</param>
    static void WriteForm(HtmlWriter html, Words words, (string Value, string Words)? first, string token, string turn)
    {
        html.Markup("<form method=\"post\""u8).Attribute("action"u8, CheckInPages.Address).Markup(">"u8);
        FormFields.WriteToken(html, token);
        FormFields.WriteTurn(html, turn);
        html.Markup("<div class=\"row\">"u8);
        if (first is var (value, said))
            html.Markup("<button name=\"answer\""u8).Attribute("value"u8, value).Markup(">"u8).Text(words[said]).Markup("</button>"u8);
        html.Markup("<button name=\"answer\" value=\"not well\">"u8).Text(words["check-in not well"]).Markup("</button></div></form>"u8);
    }

    static string VisitDay(Words words, OpenCheckIn open) => Day(words, open.Visit.At);

    static string Ahead(Words words, OpenCheckIn open) =>
        open.Next is { } next ? words.Letter.Text("check-in next", ("day", Day(words, next.From))) : words["check-in last"];

    static string Day(Words words, Instant at) => words.Letter.Date(at.InZone(words.Edition.Clinic.Zone).Date);
}
