using System.Collections.Immutable;
using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.CheckIns;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Staff;
using EarHelp.Clinic.Visits;
using EarHelp.Conversation.Taking;
using EarHelp.Exchange.Codes;
using EarHelp.Triage.Answers;
using EarHelp.Web.CheckIns;
using EarHelp.Web.Desk;
using EarHelp.Web.Editions;
using EarHelp.Web.Pages;
using EarHelp.Web.Security;
using EarHelp.Web.Staff;
using EarHelp.Web.Turns;
using NodaTime;

namespace EarHelp.Web.AfterVisit;

/// <summary>Recording a visit, the list of visits, and links for patients. What is read or done stands in the audit trail first.</summary>
public sealed class RecordPages(
    StaffGate gate, IVisitStore visits, IFollowUps followUps, TurnTaking taking, VisitRecording recording, ServedEditions editions, Auditor auditor, FaultPages faults, TimeProvider clock)
{
    Instant Now => Instant.FromDateTimeOffset(clock.GetUtcNow());

    public async Task ListAsync(HttpContext context)
    {
        if (await gate.ReadAsync(context, StaffRole.Desk, StaffRole.Clinician) is not { } reader)
            return;
        await auditor.AddAsync(reader.Account.Id, AuditDeed.ListedVisits, null, context.RequestAborted);
        var asked = (await followUps.AllAsync(context.RequestAborted)).ToImmutableDictionary(f => f.Conversation);
        var listed = ImmutableArray.CreateBuilder<(Visit, ImmutableArray<string>)>();
        foreach (var visit in await visits.AllAsync(context.RequestAborted))
            listed.Add((visit, await StatusAsync(reader.Words, visit, asked.GetValueOrDefault(visit.Conversation), context.RequestAborted)));
        await PageResponse.SendAsync(context, WriteList(reader, listed.ToImmutable()));
    }

    public async Task FormAsync(HttpContext context)
    {
        if (await gate.ReadAsync(context, StaffRole.Clinician) is not { } reader)
            return;
        var before = StaffForm.ReadLine(context.Request.Query[RecordForm.Before]);
        var when = RecordForm.MomentOf(Now, reader.Words.Edition.Clinic.Zone);
        await PageResponse.SendAsync(context, RecordForm.Write(reader, Secret.NewIdentifier(), before, when, [], AskedAfter.Nowhere, null));
    }

    public async Task RecordAsync(HttpContext context)
    {
        if (await gate.TakeAsync(context, StaffRole.Clinician) is not var (by, fields) || editions.Current is not { } served)
            return;
        var id = fields[FormFields.Turn].ToString();
        if (id.Length is 0 or > SentForm.LongestTurn)
        {
            await faults.SendAsync(context, StatusCodes.Status400BadRequest);
            return;
        }

        var ticked = RecordForm.ReadTicked(fields);
        var before = StaffForm.ReadLine(fields[RecordForm.Before]);
        var asked = RecordForm.ReadAsked(fields);
        var link = Secret.New();
        var fault = asked is { Email.Length: > 0, IsAgreed: false } ? "record not agreed" : "record when wrong";
        if ((asked.IsAgreed || asked.Email.Length == 0) && RecordForm.ReadWhen(fields, served.Edition.Clinic.Zone) is { } at)
        {
            await auditor.AddAsync(by.Account.Id, AuditDeed.RecordedVisit, id, context.RequestAborted);
            var visit = new Visit(id, served.Edition.Id, at, by.Account.ShownName, ticked, before.Length > 0 ? before : null);
            fault = await recording.RecordAsync(visit, new FollowUp(id, 1, asked.Email, Secret.New()) { WantsPlan = asked.WantsPlan }, served.Edition, served.DefaultLanguage, Talk.KeyOfLink(link), context.RequestAborted) is { } wrong
                ? RecordForm.KeyOf(wrong)
                : null;
        }

        if (fault is null)
            await PageResponse.SendAsync(context, WriteLink(by, AddressOf(context, link)));
        else
            await PageResponse.SendAsync(context, RecordForm.Write(by, id, before, RecordForm.WrittenWhen(fields), ticked, asked, fault), StatusCodes.Status422UnprocessableEntity);
    }

    public async Task LinkAsync(HttpContext context)
    {
        if (await gate.TakeAsync(context, StaffRole.Desk, StaffRole.Clinician) is not var (by, _))
            return;
        var conversation = (string)context.Request.RouteValues["id"]!;
        var link = Secret.New();
        await auditor.AddAsync(by.Account.Id, AuditDeed.MadeVisitLink, conversation, context.RequestAborted);
        if (await recording.LinkAsync(conversation, Secret.NewIdentifier(), Talk.KeyOfLink(link), context.RequestAborted))
            await PageResponse.SendAsync(context, WriteLink(by, AddressOf(context, link)));
        else
            await faults.SendAsync(context, StatusCodes.Status404NotFound);
    }

    /// <summary>Whether the questions were left can only be told by the conversation.</summary>
    async ValueTask<ImmutableArray<string>> StatusAsync(Words words, Visit visit, FollowUp? followUp, CancellationToken cancellation)
    {
        var isWorse = followUp?.Replies.LastOrDefault() is { IsWell: false };
        var told = isWorse && await taking.FindAsync(visit.Conversation, cancellation) is var (_, state) ? state.Told : null;
        return CheckInStatus.Of(words, visit, followUp, told?.DecidedAt, Now);
    }

    static string AddressOf(HttpContext context, string link) => $"{context.Request.Scheme}://{context.Request.Host}{VisitLinks.PathOf(link)}";

    static ReadOnlyMemory<byte> WriteLink(SignedIn reader, string address) =>
        StaffFrame.Write(reader, reader.Words["record saved heading"], html =>
        {
            var (size, path) = ScannedAddress.Draw(address);
            html.Element("h1"u8, reader.Words["record saved heading"]).Element("p"u8, reader.Words["record saved"]).Markup("<p class=\"pen\" id=\"link\">"u8)
                .Text(address).Markup("</p><p>"u8).Text(reader.Words["record code"]).Markup("</p><svg class=\"code\" role=\"img\" viewBox=\"0 0 "u8).Number(size).Markup(" "u8).Number(size)
                .Markup("\""u8).Attribute("aria-label"u8, reader.Words["record code hint"]).Markup("><path class=\"paper\" d=\"M0 0h"u8).Number(size).Markup("v"u8).Number(size).Markup("H0z\"/><path"u8)
                .Attribute("d"u8, path).Markup("/></svg><p>"u8).Text(reader.Words["record link once"]).Markup("</p><p><a class=\"button quiet\""u8)
                .Attribute("href"u8, AfterVisitParts.Prefix).Markup(">"u8).Text(reader.Words["record list"]).Markup("</a></p>"u8);
        });

    static ReadOnlyMemory<byte> WriteList(SignedIn reader, ImmutableArray<(Visit Visit, ImmutableArray<string> CheckIns)> all)
    {
        var words = reader.Words;
        return StaffFrame.Write(reader, words["record list"], html =>
        {
            html.Element("h1"u8, words["record list"]).Element("p"u8, words["record list hint"]);
            if (reader.Account.Has(StaffRole.Clinician))
                html.Markup("<p><a class=\"button\""u8).Attribute("href"u8, AfterVisitParts.Prefix + "/new").Markup(">"u8).Text(words["record new"]).Markup("</a></p>"u8);
            if (all.IsEmpty)
                html.Element("p"u8, words["record none"]);
            foreach (var (visit, checkIns) in all)
            {
                html.Markup("<section><h2>"u8).Text(words.Letter.Moment(visit.At)).Markup("</h2><p>"u8).Text(words.Letter.Text("record by", ("who", visit.By))).Markup("</p><ul>"u8);
                foreach (var seen in visit.Findings)
                    html.Markup("<li>"u8).Text(PartOf(words, seen.Ear)).Markup(": "u8).Text(FormOf(words, seen)).Markup("</li>"u8);
                html.Markup("</ul><p class=\"hint\">"u8);
                foreach (var line in checkIns)
                    html.Text(line).Markup(" "u8);
                html.Markup("</p>"u8);
                StaffForm.Begin(html, $"{AfterVisitParts.Prefix}/{visit.Conversation}/link", reader.Token);
                StaffForm.End(html, words, "record again").Markup("<p><a"u8).Attribute("href"u8, CallerPages.AddressAfter(visit.Conversation)).Markup(">"u8)
                    .Text(words["callers after visit"]).Markup("</a></p></section>"u8);
            }
        });
    }

    static string PartOf(Words words, Ear? ear) => words[ear switch { Ear.Left => "record left", Ear.Right => "record right", _ => "record person" }];

    /// <summary>An edition of now may have no such finding any more: then its name is told.</summary>
    static string FormOf(Words words, SeenFinding seen) => words.Edition.Wordings[words.Language].Findings.TryGetValue(seen.Finding, out var known) ? known.Form : seen.Finding;
}
