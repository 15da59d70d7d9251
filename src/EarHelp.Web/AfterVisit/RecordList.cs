using System.Collections.Immutable;
using System.Globalization;
using EarHelp.Clinic.Staff;
using EarHelp.Clinic.Visits;
using EarHelp.Triage.Answers;
using EarHelp.Web.Desk;
using EarHelp.Web.Markup;
using EarHelp.Web.Pages;
using EarHelp.Web.Staff;

namespace EarHelp.Web.AfterVisit;

/// <summary>The list of visits: what was recorded, what of it was corrected, and what came back from the patients.</summary>
sealed class RecordList(HtmlWriter html, SignedIn reader)
{
    Words Words => reader.Words;

    internal static ReadOnlyMemory<byte> Write(SignedIn reader, ImmutableArray<(Visit Visit, ImmutableArray<string> CheckIns)> all)
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
            foreach (var (visit, checkIns) in all)
                list.Write(visit, checkIns);
        });
    }

    void Write(Visit visit, ImmutableArray<string> checkIns)
    {
        html.Markup("<section><h2>"u8).Text(Words.Letter.Moment(visit.At)).Markup("</h2>"u8);
        WriteVersion(visit);
        WriteEarlier(visit);
        html.Markup("<p class=\"hint\">"u8);
        foreach (var line in checkIns)
            html.Text(line).Markup(" "u8);
        html.Markup("</p>"u8);
        StaffForm.Begin(html, $"{AfterVisitParts.Prefix}/{visit.Conversation}/link", reader.Token);
        StaffForm.End(html, Words, "record again").Markup("<p><a"u8).Attribute("href"u8, CallerPages.AddressAfter(visit.Conversation)).Markup(">"u8)
            .Text(Words["callers after visit"]).Markup("</a></p>"u8);
        if (reader.Account.Has(StaffRole.Clinician))
            html.Markup("<p><a"u8).Attribute("href"u8, CorrectionPages.AddressOf(visit.Conversation)).Markup(">"u8).Text(Words["correct open"]).Markup("</a></p>"u8);
        html.Markup("</section>"u8);
    }

    void WriteVersion(Visit visit)
    {
        html.Element("p"u8, visit.Correction is { } correction
            ? Words.Letter.Text("record corrected", ("who", visit.By), ("moment", Words.Letter.Moment(correction.At)))
            : Words.Letter.Text("record by", ("who", visit.By)));
        if (visit.Correction is { Reason.Length: > 0 } reasoned)
            html.Element("p"u8, Words.Letter.Text("record corrected why", ("reason", reasoned.Reason)));
        html.Markup("<ul>"u8);
        foreach (var seen in visit.Findings)
            html.Markup("<li>"u8).Text(PartOf(seen.Ear)).Markup(": "u8).Text(FormOf(seen)).Markup("</li>"u8);
        html.Markup("</ul>"u8);
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
            WriteVersion(earlier);
        }

        html.Markup("</details>"u8);
    }

    string PartOf(Ear? ear) => Words[ear switch { Ear.Left => "record left", Ear.Right => "record right", _ => "record person" }];

    /// <summary>An edition of now may have no such finding any more: then its name is told.</summary>
    string FormOf(SeenFinding seen) => Words.Edition.Wordings[Words.Language].Findings.TryGetValue(seen.Finding, out var known) ? known.Form : seen.Finding;
}
