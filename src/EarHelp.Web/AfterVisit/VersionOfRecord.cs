using EarHelp.Clinic.Visits;
using EarHelp.Triage.Answers;
using EarHelp.Web.Markup;
using EarHelp.Web.Pages;

namespace EarHelp.Web.AfterVisit;

/// <summary>One version of what was recorded of a visit, for staff: who, why it was corrected, and each finding.</summary>
sealed class VersionOfRecord(HtmlWriter html, Words words)
{
    internal void Write(Visit visit)
    {
        html.Element("p"u8, visit.Correction is { } correction
            ? words.Letter.Text("record corrected", ("who", visit.By), ("moment", words.Letter.Moment(correction.At)))
            : words.Letter.Text("record by", ("who", visit.By)));
        if (visit.Correction is { Reason.Length: > 0 } reasoned)
            html.Element("p"u8, words.Letter.Text("record corrected why", ("reason", reasoned.Reason)));
        html.Markup("<ul>"u8);
        foreach (var seen in visit.Findings)
            html.Markup("<li>"u8).Text(PartOf(seen.Ear)).Markup(": "u8).Text(FormOf(seen)).Markup("</li>"u8);
        html.Markup("</ul>"u8);
    }

    string PartOf(Ear? ear) => words[ear switch { Ear.Left => "record left", Ear.Right => "record right", _ => "record person" }];

    /// <summary>An edition of now may have no such finding any more: then its name is told.</summary>
    string FormOf(SeenFinding seen) => words.Edition.Wordings[words.Language].Findings.TryGetValue(seen.Finding, out var known) ? known.Form : seen.Finding;
}
