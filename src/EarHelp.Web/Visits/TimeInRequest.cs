using EarHelp.Clinic.Requests;
using EarHelp.Clinic.Times;
using EarHelp.Web.Markup;
using EarHelp.Web.Pages;
using NodaTime;

namespace EarHelp.Web.Visits;

/// <summary>The part of a request's page that is about its time: none yet, held, or booked.</summary>
/// <param name="limit">The time by which someone should look, or null.</param>
sealed class TimeInRequest(HtmlWriter html, Words words, VisitRequest request, Instant? limit, string token, Instant now)
{
    internal void Write(string turn)
    {
        if (words.Edition.Clinic.Lengths is null && request.Booked is null)
            return;
        html.Markup("<section id=\"time\"><h2>"u8).Text(words["visit time heading"]).Markup("</h2>"u8);
        if (request.Booked is { } booked)
            WriteBooked(booked);
        if (request.Held is { } held && held.IsHeld(now))
            WriteHeld(held, turn);
        else if (request.Booked is null)
            html.Element("p"u8, words["visit time none"]).Markup("<p><a class=\"button\" href=\"/visit/times\">"u8).Text(words["visit time choose"]).Markup("</a></p>"u8);
        html.Markup("</section>"u8);
    }

    void WriteBooked(VisitTime booked)
    {
        html.Markup("<p><strong>"u8).Text(words.Letter.Text("visit time booked", ("moment", words.Letter.Moment(booked.Start)))).Markup("</strong></p>"u8);
        if (booked is { By: { } who, Room: { } room })
            html.Element("p"u8, words.Letter.Text("visit time place", ("who", who), ("room", room)));
        if (limit is { } by && booked.End > by)
            html.Markup("<p class=\"alarm\">"u8).Text(words.Letter.Text("visit time too late", ("moment", words.Letter.Moment(by)))).Markup("</p>"u8);
        html.Markup("<div class=\"row\"><a class=\"button quiet\" href=\"/visit/calendar\">"u8).Text(words["visit time file"])
            .Markup("</a><a class=\"button quiet\" href=\"/visit/times\">"u8).Text(words["visit time move"])
            .Markup("</a><a class=\"button quiet\" href=\"/visit/cancel\">"u8).Text(words["visit time cancel"]).Markup("</a></div>"u8);
    }

    void WriteHeld(HeldTime held, string turn)
    {
        html.Element("p"u8, words.Letter.Text("visit time held", ("moment", words.Letter.Moment(held.Time.Start)), ("until", words.Letter.Moment(held.Until))));
        html.Markup("<form method=\"post\" action=\"/visit/confirm\"><div class=\"row\">"u8);
        FormFields.WriteToken(html, token);
        FormFields.WriteTurn(html, turn);
        html.Markup("<button>"u8).Text(words["visit time confirm"]).Markup("</button><a class=\"button quiet\" href=\"/visit/times\">"u8)
            .Text(words["visit time another"]).Markup("</a></div></form>"u8);
    }
}
