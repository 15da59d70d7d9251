using System.Buffers;
using System.Collections.Immutable;
using System.Globalization;
using EarHelp.Clinic.Desk;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using EarHelp.Web.AfterVisit;
using EarHelp.Web.Markup;
using EarHelp.Web.Pages;
using EarHelp.Web.Staff;
using NodaTime;

namespace EarHelp.Web.Desk;

/// <summary>All requests in the order in which someone must look; the part that changes can be sent by itself.</summary>
static class QueuePage
{
    /// <param name="left">How many patients are not well after a visit and left the questions.</param>
    internal static ReadOnlyMemory<byte> Write(SignedIn reader, DeskOrder queue, int left, Instant now) =>
        StaffFrame.Write(reader, reader.Words["desk heading"], html =>
        {
            html.Element("h1"u8, reader.Words["desk heading"]).Markup("<p class=\"heard\" role=\"status\" id=\"desk-status\"></p><div id=\"queue\" data-events=\"/staff/desk/events\">"u8);
            WriteQueue(html, reader.Words, queue, left, now);
            html.Markup("</div>"u8);
        });

    internal static ReadOnlyMemory<byte> WritePart(Words words, DeskOrder queue, int left, Instant now)
    {
        var output = new ArrayBufferWriter<byte>();
        WriteQueue(new HtmlWriter(output), words, queue, left, now);
        return output.WrittenMemory;
    }

    static void WriteQueue(HtmlWriter html, Words words, DeskOrder queue, int left, Instant now)
    {
        var count = queue.Unanswered.Length.ToString(CultureInfo.InvariantCulture);
        html.Markup("<p id=\"desk-count\"><strong>"u8).Text(words.Letter.Text("desk count", ("number", count))).Markup("</strong> "u8)
            .Text(words.Letter.Text("desk as of", ("moment", words.Letter.Moment(now)))).Markup("</p>"u8);
        if (left > 0)
            html.Markup("<p><strong><a"u8).Attribute("href"u8, AfterVisitParts.Prefix).Markup(">"u8).Text(words.Letter.Text("check-in staff left count", ("number", left.ToString(CultureInfo.InvariantCulture)))).Markup("</a></strong></p>"u8);
        WriteTable(html, words, "desk unanswered", queue.Unanswered, now);
        WriteTable(html, words, "desk answered", queue.Answered, now);
    }

    static void WriteTable(HtmlWriter html, Words words, string heading, ImmutableArray<KeptRequest> requests, Instant now)
    {
        if (requests.IsEmpty)
            return;
        html.Element("h2"u8, words[heading]).Markup("<table><thead><tr>"u8);
        foreach (var column in (string[])["desk by when", "desk who", "desk reach", "desk done"])
            html.Markup("<th scope=\"col\">"u8).Text(words[column]).Markup("</th>"u8);
        html.Markup("</tr></thead><tbody>"u8);
        foreach (var kept in requests)
            WriteRow(html, words, kept, now);
        html.Markup("</tbody></table>"u8);
    }

    static void WriteRow(HtmlWriter html, Words words, KeptRequest kept, Instant now)
    {
        var request = kept.Request;
        html.Markup("<tr><td>"u8);
        WriteUrgency(html, words, request, now);
        html.Markup("</td><td><a"u8).Attribute("href"u8, "/staff/desk/" + request.Conversation).Markup(">"u8).Typed(NameOf(words, kept)).Markup("</a>"u8);
        if (request.Steps.Any(s => s.Kind == DeskStepKind.NotWell))
            html.Markup("<br>"u8).Text(words["desk after visit"]);
        html.Markup("</td><td>"u8);
        html.Text(words[WaysWords(kept.Contact)]);
        foreach (var need in kept.Contact is { } contact ? Visits.RequestFields.Needs.Where(n => n.IsNeeded(contact.Needs)) : [])
            html.Markup("<br>"u8).Text(words[need.Words]);
        html.Markup("</td><td>"u8);
        if (request.Booked is { } booked)
            html.Text(words.Letter.Text(booked.End > request.Urgency.SeenBy ? "desk booked late" : "desk booked", ("moment", PlaceWords.Of(words, booked)))).Markup("<br>"u8);
        html.Text(request.Steps.IsEmpty ? words["desk nothing done"] : StepWords.Of(words, request.Steps[^1])).Markup("</td></tr>"u8);
    }

    /// <summary>How soon, by when and how long that is; and, while nobody has answered, from when the patient goes elsewhere.</summary>
    internal static void WriteUrgency(HtmlWriter html, Words words, VisitRequest request, Instant now)
    {
        var urgency = request.Urgency;
        html.Markup("<strong>"u8).Text(urgency.Level).Markup("</strong>"u8);
        if (urgency.SeenBy is { } limit)
            html.Markup("<br>"u8).Text(words.Letter.Moment(limit)).Markup("<br><b>"u8).Text(TimeLeft.Write(words, limit, now)).Markup("</b>"u8);
        if (urgency.AnswerBy is { } answer && !request.IsAnswered(urgency, now))
            html.Markup("<br>"u8).Text(words.Letter.Text(answer > now ? "desk answer by" : "desk answer over", ("moment", words.Letter.Moment(answer)), ("left", TimeLeft.Write(words, answer, now))));
    }

    internal static string NameOf(Words words, KeptRequest kept) =>
        kept.Contact is { Name.Length: > 0 } contact ? contact.Name : kept.Contact is { AskedBy.Length: > 0 } other ? words.Letter.Text("desk asked by", ("name", other.AskedBy)) : words["desk nameless"];

    static string WaysWords(ContactDetails? contact) =>
        Visits.RequestFields.Ways.FirstOrDefault(w => w.Way == contact?.ReachBy).Words ?? (contact is { Number.Length: 0 } ? "visit by email" : "desk any way");
}
