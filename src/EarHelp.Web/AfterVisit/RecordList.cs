using System.Collections.Immutable;
using System.Globalization;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Staff;
using EarHelp.Clinic.Visits;
using EarHelp.Web.Desk;
using EarHelp.Web.Markup;
using EarHelp.Web.Pages;
using EarHelp.Web.Staff;
using EarHelp.Web.Visits;

namespace EarHelp.Web.AfterVisit;

/// <summary>The list of visits: what was recorded, what of it was corrected, and what came back from the patients.</summary>
sealed class RecordList(HtmlWriter html, SignedIn reader)
{
    Words Words => reader.Words;

    internal static ReadOnlyMemory<byte> Write(SignedIn reader, ImmutableArray<ListedVisit> all)
    {
        var words = reader.Words;
        return StaffFrame.Write(reader, words["record list"], html =>
        {
            html.Element("h1"u8, words["record list"]).Element("p"u8, words["record list hint"]);
            if (reader.Account.Has(StaffRole.Clinician))
                html.Markup("<p><a class=\"button\""u8).Attribute("href"u8, AfterVisitParts.Prefix + "/new").Markup(">"u8).Text(words["record new"]).Markup("</a></p>"u8);
            if (all.IsEmpty)
                html.Element("p"u8, words["record none"]);
            var list = new RecordList(html, reader);
            foreach (var listed in all)
                list.Write(listed);
        });
    }

    void Write(ListedVisit listed)
    {
        var visit = listed.Visit;
        html.Markup("<section><h2>"u8).Text(Words.Letter.Moment(visit.At)).Markup("</h2>"u8);
        WriteWhose(listed);
        new VersionOfRecord(html, Words).Write(visit);
        WriteEarlier(visit);
        html.Markup("<p class=\"hint\">"u8);
        foreach (var line in listed.CheckIns)
            html.Text(line).Markup(" "u8);
        html.Markup("</p>"u8);
        StaffForm.Begin(html, $"{AfterVisitParts.Prefix}/{visit.Conversation}/link", reader.Token);
        StaffForm.End(html, Words, "record again").Markup("<p><a"u8).Attribute("href"u8, CallerPages.AddressAfter(visit.Conversation)).Markup(">"u8)
            .Text(Words["callers after visit"]).Markup("</a></p>"u8);
        if (reader.Account.Has(StaffRole.Clinician))
            html.Markup("<p><a"u8).Attribute("href"u8, CorrectionPages.AddressOf(visit.Conversation)).Markup(">"u8).Text(Words["correct open"]).Markup("</a></p>"u8);
        html.Markup("</section>"u8);
    }

    /// <summary>The request from which the visit was asked for; without one, the address of the messages; else nobody here knows whose it is.</summary>
    void WriteWhose(ListedVisit listed)
    {
        if (listed.Asked is { } asked)
        {
            html.Markup("<p><a"u8).Attribute("href"u8, $"{StaffParts.Prefix}/desk/{asked.Request.Conversation}").Markup(">"u8).Typed(QueuePage.NameOf(Words, asked)).Markup("</a>"u8);
            foreach (var need in asked.Contact is { } contact ? RequestFields.Needs.Where(n => n.IsNeeded(contact.Needs)) : [])
                html.Markup("<br>"u8).Text(Words[need.Words]);
            html.Markup("</p>"u8);
        }
        else if (listed.Email.Length > 0)
        {
            html.Markup("<p>"u8).Typed(listed.Email).Markup("</p>"u8);
        }
    }

    /// <summary>What stood there before, the latest first.</summary>
    void WriteEarlier(Visit visit)
    {
        if (visit.Earlier.IsEmpty)
            return;
        html.Markup("<details><summary>"u8).Text(Words.Letter.Text("record earlier", ("number", visit.Earlier.Length.ToString(CultureInfo.InvariantCulture)))).Markup("</summary>"u8);
        foreach (var earlier in visit.Earlier.Reverse())
        {
            html.Markup("<h3>"u8).Text(Words.Letter.Moment(earlier.At)).Markup("</h3>"u8);
            new VersionOfRecord(html, Words).Write(earlier);
        }

        html.Markup("</details>"u8);
    }
}

/// <param name="CheckIns">What came back, a line each.</param>
/// <param name="Asked">The request that stands, from which the visit was asked for; null: none is known.</param>
/// <param name="Email">Where the patient is asked how it is, or empty.</param>
sealed record ListedVisit(Visit Visit, ImmutableArray<string> CheckIns, KeptRequest? Asked, string Email);
