using System.Collections.Immutable;
using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.CheckIns;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using EarHelp.Clinic.Staff;
using EarHelp.Clinic.Visits;
using EarHelp.Conversation.Taking;
using EarHelp.Exchange.Codes;
using EarHelp.Web.CheckIns;
using EarHelp.Web.Editions;
using EarHelp.Web.Pages;
using EarHelp.Web.Security;
using EarHelp.Web.Staff;
using EarHelp.Web.Turns;
using NodaTime;

namespace EarHelp.Web.AfterVisit;

/// <summary>Recording a visit, the list of visits, and links for patients. What is read or done stands in the audit trail first.</summary>
public sealed class RecordPages(
    StaffGate gate, IVisitStore visits, IRequestStore requests, IFollowUps followUps, TurnTaking taking, VisitRecording recording, ServedEditions editions, Auditor auditor, FaultPages faults, TimeProvider clock)
{
    Instant Now => Instant.FromDateTimeOffset(clock.GetUtcNow());

    public async Task ListAsync(HttpContext context)
    {
        if (await gate.ReadAsync(context, StaffRole.Desk, StaffRole.Clinician) is not { } reader)
            return;
        await auditor.AddAsync(reader.Account.Id, AuditDeed.ListedVisits, null, context.RequestAborted);
        var asked = (await followUps.AllAsync(context.RequestAborted)).ToImmutableDictionary(f => f.Conversation);
        var requested = (await requests.WaitingAsync(context.RequestAborted)).ToImmutableDictionary(k => k.Request.Conversation);
        var listed = ImmutableArray.CreateBuilder<ListedVisit>();
        foreach (var visit in await visits.AllAsync(context.RequestAborted))
        {
            var followUp = asked.GetValueOrDefault(visit.Conversation);
            var lines = await StatusAsync(reader.Words, visit, followUp, context.RequestAborted);
            listed.Add(new ListedVisit(visit, lines, requested.GetValueOrDefault(visit.Before ?? ""), followUp?.Email ?? ""));
        }

        await PageResponse.SendAsync(context, RecordList.Write(reader, listed.ToImmutable()));
    }

    public async Task FormAsync(HttpContext context)
    {
        if (await gate.ReadAsync(context, StaffRole.Clinician) is not { } reader)
            return;
        var before = StaffForm.ReadLine(context.Request.Query[RecordForm.Before]);
        var when = RecordForm.MomentOf(Now, reader.Words.Edition.Clinic.Zone);
        var whose = await WhoseAsync(reader, before, context.RequestAborted);
        await PageResponse.SendAsync(context, RecordForm.Write(reader, Secret.NewIdentifier(), before, whose, when, [], AskedAfter.Nowhere, null));
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
            await PageResponse.SendAsync(context, RecordForm.Write(by, id, before, await WhoseAsync(by, before, context.RequestAborted), RecordForm.WrittenWhen(fields), ticked, asked, fault), StatusCodes.Status422UnprocessableEntity);
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

    /// <summary>Who asked for the visit, so that nobody records it for another patient; null: nobody did on these pages.</summary>
    async ValueTask<ContactDetails?> WhoseAsync(SignedIn reader, string before, CancellationToken cancellation)
    {
        if (before.Length == 0)
            return null;
        await auditor.AddAsync(reader.Account.Id, AuditDeed.ReadConversation, before, cancellation);
        return (await requests.FindAsync(before, cancellation))?.Contact;
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
}
