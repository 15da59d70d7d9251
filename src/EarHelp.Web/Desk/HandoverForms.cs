using System.Globalization;
using EarHelp.Clinic.Desk;
using EarHelp.Clinic.Staff;
using EarHelp.Web.AfterVisit;
using EarHelp.Web.Markup;
using EarHelp.Web.Pages;
using EarHelp.Web.Staff;
using NodaTime;

namespace EarHelp.Web.Desk;

/// <summary>What can be done about a request: a form each, whole without a script.</summary>
sealed class HandoverForms(HtmlWriter html, SignedIn reader, OpenedRequest opened, IFormCollection? sent, string form, Instant now)
{
    internal const string Note = "note";
    internal const string Reason = "reason";
    internal const string Advice = "advice";
    internal const string Start = "start";
    internal const string Place = "place";
    internal const string Level = "level";

    internal const int LongestNote = 1000;

    Words Words => reader.Words;

    /// <summary>What was written before a fault.</summary>
    string Sent(string field) => sent?[field].ToString() ?? "";

    internal void Write()
    {
        html.Markup("<div class=\"tools\"><h2>"u8).Text(Words["desk do"]).Markup("</h2>"u8);
        if (opened.Request.Booked is { } booked)
        {
            html.Element("p"u8, Words.Letter.Text("desk booked", ("moment", PlaceWords.Of(Words, booked))));
            if (opened.Request.Steps.LastOrDefault()?.Kind != DeskStepKind.Accepted)
            {
                Begin("accept");
                StaffForm.End(html, Words, "desk accept");
            }
        }

        if (opened.Request.Booked is { } past && past.Start < now)
        {
            Begin("did-not-come");
            StaffForm.End(html, Words, "desk did not come");
        }

        WriteTimes();
        Begin("telephone");
        html.Element("h3"u8, Words["desk telephone heading"]);
        StaffForm.WriteText(html, Words, Note, "desk note", "desk note hint", LongestNote, Sent(Note));
        html.Markup("<div class=\"row\"><button>"u8).Text(Words["desk telephoned"]).Markup("</button><button class=\"quiet\" name=\"reached\" value=\"no\">"u8)
            .Text(Words["desk not reached"]).Markup("</button></div></form>"u8);
        Begin("elsewhere");
        html.Element("h3"u8, Words["desk elsewhere heading"]).Markup("<div class=\"own\"><label for=\"place\">"u8).Text(Words["desk place"]).Markup("</label><select id=\"place\" name=\"place\"><option value=\"\">"u8).Text(Words["desk choose"]).Markup("</option>"u8);
        foreach (var place in opened.Edition.Dialog.Destinations.Where(d => d.Hours != Triage.Rules.DestinationHours.Clinic))
            WriteOption(place.Id, Sent(Place));
        html.Markup("</select></div>"u8);
        StaffForm.WriteText(html, Words, Advice, "desk place note", "desk patient reads", LongestNote, Sent(Advice));
        StaffForm.End(html, Words, "desk elsewhere");
        WriteLevels();
        if (reader.Account.Has(StaffRole.Clinician))
        {
            html.Markup("<p><a class=\"button quiet\""u8).Attribute("href"u8, $"{AfterVisitParts.Prefix}/new?{RecordForm.Before}={opened.Request.Conversation}").Markup(">"u8)
                .Text(Words["record new"]).Markup("</a></p>"u8);
        }

        Begin("incident");
        html.Element("h3"u8, Words["incident heading"]).Element("p"u8, Words["incident hint"]);
        StaffForm.WriteText(html, Words, IncidentPages.Happened, "incident happened", "incident staff reads", IncidentPages.LongestText);
        StaffForm.End(html, Words, "incident send");
        html.Markup("</div>"u8);
    }

    void WriteTimes()
    {
        html.Element("h3"u8, Words["desk times heading"]);
        if (opened.Free is not { IsEmpty: false } free)
        {
            html.Element("p"u8, Words[opened.Free is null ? "desk times unknown" : "desk times none"]);
            return;
        }

        Begin("time");
        html.Markup("<fieldset><legend>"u8).Text(Words["desk times hint"]).Markup("</legend><ul class=\"choices\">"u8);
        foreach (var time in free)
        {
            html.Markup("<li><label class=\"pick\"><input type=\"radio\" name=\"start\""u8).Attribute("value"u8, time.Start.ToUnixTimeMilliseconds().ToString(CultureInfo.InvariantCulture))
                .Markup("><span>"u8).Text(PlaceWords.Of(Words, time)).Markup("</span></label></li>"u8);
        }

        html.Markup("</ul></fieldset><div class=\"row\"><button>"u8).Text(Words["desk offer"]).Markup("</button><button class=\"quiet\" name=\"agreed\" value=\"yes\">"u8)
            .Text(Words["desk book"]).Markup("</button></div></form>"u8);
    }

    void WriteLevels()
    {
        var levels = opened.Edition.Dialog.Levels.Where(l => Judging.IsAllowed(reader.Account, opened.Request.Urgency, l)).ToList();
        if (levels.Count == 0)
            return;
        Begin("level");
        html.Element("h3"u8, Words["desk level heading"]).Markup("<div class=\"own\"><label for=\"level\">"u8).Text(Words["desk level"]).Markup("</label><select id=\"level\" name=\"level\"><option value=\"\">"u8).Text(Words["desk choose"]).Markup("</option>"u8);
        foreach (var level in levels)
            WriteOption(level.Id, Sent(Level));
        html.Markup("</select></div>"u8);
        StaffForm.WriteText(html, Words, Reason, "desk reason", "desk patient reads", LongestNote, Sent(Reason));
        StaffForm.End(html, Words, "desk level button");
    }

    void WriteOption(string name, string chosen) => html.Markup(name == chosen ? "<option selected>"u8 : "<option>"u8).Text(name).Markup("</option>"u8);

    void Begin(string what)
    {
        StaffForm.Begin(html, $"/staff/desk/{opened.Request.Conversation}/{what}", reader.Token);
        FormFields.WriteTurn(html, form);
    }
}
