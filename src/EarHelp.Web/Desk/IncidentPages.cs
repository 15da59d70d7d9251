using System.Collections.Immutable;
using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Incidents;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Staff;
using EarHelp.Conversation.Replies;
using EarHelp.Web.Markup;
using EarHelp.Web.Pages;
using EarHelp.Web.Security;
using EarHelp.Web.Staff;
using EarHelp.Web.Turns;
using NodaTime;

namespace EarHelp.Web.Desk;

/// <summary>Reporting that something went wrong, for staff and for patients; and the list of what was reported.</summary>
public sealed class IncidentPages(StaffGate gate, FormGate forms, Talk talk, RequestDesk desk, DeskPages pages, IIncidents incidents, IStaffStore staff, Auditor auditor, FaultPages faults)
{
    internal const string Happened = "happened";

    internal const int LongestText = 2000;

    static readonly StaffRole[] Readers = [StaffRole.Clinician, StaffRole.Approver, StaffRole.Administrator];

    /// <summary>From the handover of a request.</summary>
    public async Task ReportAsync(HttpContext context)
    {
        if (await gate.TakeAsync(context, DeskPages.Roles) is not var (by, fields))
            return;
        var conversation = (string)context.Request.RouteValues["id"]!;
        var words = StaffForm.ReadLine(fields[Happened], LongestText);
        var form = fields[FormFields.Turn].ToString();
        if (words.Length > 0 && form.Length is > 0 and <= SentForm.LongestTurn && await desk.OpenAsync(conversation, context.RequestAborted) is { } opened)
        {
            await auditor.AddAsync(by.Account.Id, AuditDeed.ReportedIncident, conversation, context.RequestAborted);
            await incidents.AddAsync(Of(form, by.Account.Id, conversation, opened.Edition.Edition.Id, opened.Told, words, desk.Now), context.RequestAborted);
            await PageResponse.SendAsync(context, StaffFrame.Write(by, by.Words["incident heading"], html =>
                html.Element("h1"u8, by.Words["incident heading"]).Element("p"u8, by.Words["incident kept"])));
            return;
        }

        if (words.Length == 0)
            await pages.SendRequestAsync(context, by, "incident missing");
        else
            await faults.SendAsync(context, StatusCodes.Status404NotFound);
    }

    public async Task ListAsync(HttpContext context)
    {
        if (await gate.ReadAsync(context, Readers) is not { } reader)
            return;
        await auditor.AddAsync(reader.Account.Id, AuditDeed.ListedIncidents, null, context.RequestAborted);
        var names = (await staff.AllAsync(context.RequestAborted)).ToImmutableDictionary(a => a.Id, a => a.ShownName);
        var all = await incidents.AllAsync(context.RequestAborted);
        await PageResponse.SendAsync(context, StaffFrame.Write(reader, reader.Words["incidents heading"], html => WriteList(html, reader.Words, all, names)));
    }

    /// <summary>The patient's form; without a conversation there is nothing that it could be about.</summary>
    public async Task PatientFormAsync(HttpContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        if (PatientCookie.Read(context) is { } secret && await talk.FindAsync(secret, context.RequestAborted) is { } conversation)
            await PageResponse.SendAsync(context, WritePatientForm(conversation.Words, FormToken.For(secret), isMissing: false));
        else
            await PageResponse.GoToAsync(context, "/complaints");
    }

    public async Task PatientReportAsync(HttpContext context)
    {
        if (await forms.ReadAsync(context) is not { } sent)
            return;
        if (await talk.FindAsync(sent.Secret, context.RequestAborted) is not { } conversation || sent.Turn is not { } form)
        {
            await faults.SendExpiredAsync(context);
            return;
        }

        var words = StaffForm.ReadLine(sent.Fields[Happened], LongestText);
        if (words.Length == 0)
        {
            await PageResponse.SendAsync(context, WritePatientForm(conversation.Words, FormToken.For(sent.Secret), isMissing: true), StatusCodes.Status422UnprocessableEntity);
            return;
        }

        await incidents.AddAsync(
            Of(form, Incident.ByPatient, conversation.Id, conversation.Edition.Edition.Id, conversation.State.Told, words, desk.Now), context.RequestAborted);
        var page = PageFrame.Write(conversation.Words, new PageState(conversation.Words["incident heading"], FormToken.For(sent.Secret), HasQuestion: false), html =>
            html.Element("h1"u8, conversation.Words["incident heading"]).Element("p"u8, conversation.Words["incident thanks"])
                .Markup("<p><a class=\"button quiet\" href=\"/letter\">"u8).Text(conversation.Words["back"]).Markup("</a></p>"u8));
        await PageResponse.SendAsync(context, page);
    }

    static Incident Of(string id, string by, string conversation, string edition, OutcomeTold? told, string words, Instant now) =>
        new(id, now, by, conversation, edition, [.. (told?.Reasons ?? []).Select(r => r.Rule).Distinct(StringComparer.Ordinal)], words);

    static ReadOnlyMemory<byte> WritePatientForm(Words words, string token, bool isMissing)
    {
        var heading = words["incident patient heading"];
        return PageFrame.Write(words, new PageState(isMissing ? words.Letter.Text("error title", ("title", heading)) : heading, token, HasQuestion: false), html =>
        {
            html.Element("h1"u8, heading).Element("p"u8, words["incident patient hint"]);
            StaffForm.WriteFault(html, words, isMissing ? "incident missing" : null);
            html.Markup("<form method=\"post\" action=\"/incident\">"u8);
            FormFields.WriteToken(html, token);
            FormFields.WriteTurn(html, Secret.NewIdentifier());
            StaffForm.WriteText(html, words, Happened, "incident happened", "incident patient reads", LongestText);
            StaffForm.End(html, words, "incident send");
        });
    }

    static void WriteList(HtmlWriter html, Words words, ImmutableArray<Incident> all, ImmutableDictionary<string, string> names)
    {
        html.Element("h1"u8, words["incidents heading"]);
        if (all.IsEmpty)
            html.Element("p"u8, words["incidents none"]);
        foreach (var incident in all)
        {
            var who = incident.By == Incident.ByPatient ? words["incident by patient"] : names.GetValueOrDefault(incident.By, incident.By);
            html.Markup("<section><h2>"u8).Text(words.Letter.Text("incident by", ("moment", words.Letter.Moment(incident.At)), ("who", who)))
                .Markup("</h2><blockquote class=\"said\">"u8).Typed(incident.Words).Markup("</blockquote><dl class=\"details\">"u8)
                .Element("dt"u8, words["incident conversation"]).Element("dd"u8, incident.Conversation)
                .Element("dt"u8, words["incident edition"]).Element("dd"u8, incident.Edition)
                .Element("dt"u8, words["incident rules"]).Element("dd"u8, incident.Rules.IsEmpty ? words["incident rules none"] : string.Join(", ", incident.Rules)).Markup("</dl></section>"u8);
        }
    }
}
