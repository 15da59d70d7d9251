using System.Collections.Immutable;
using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Callers;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Visits;
using EarHelp.Conversation.Taking;
using EarHelp.Web.Markup;
using EarHelp.Web.Pages;
using EarHelp.Web.Security;
using EarHelp.Web.Serving;
using EarHelp.Web.Staff;
using EarHelp.Web.Turns;

namespace EarHelp.Web.Desk;

/// <summary>Holding the same conversation for somebody who telephones, and following up calls that broke off.</summary>
public sealed class CallerPages(
    StaffGate gate, Talk talk, TurnTaking taking, VisitRecording visits, ICallers callers, IStaffStore staff, RequestDesk desk, Auditor auditor, FaultPages faults, ServiceSettings settings)
{
    const string Address = StaffParts.Prefix + "/callers";
    const string Number = "number";
    const string Visit = "visit";

    /// <summary>The page from which the conversation after a visit is held.</summary>
    /// <param name="visit">Identifier of the conversation after the visit.</param>
    internal static string AddressAfter(string visit) => $"{Address}?{Visit}={Uri.EscapeDataString(visit)}";

    /// <summary>What was kept in this browser of an earlier call ends here.</summary>
    public async Task ListAsync(HttpContext context)
    {
        if (await gate.ReadAsync(context, DeskPages.Roles) is not { } reader)
            return;
        var broken = ImmutableArray.CreateBuilder<Caller>();
        foreach (var caller in (await callers.AllAsync(context.RequestAborted)).Where(c => c.FollowedUpBy is null))
        {
            if (await taking.FindAsync(caller.Conversation, context.RequestAborted) is var (_, state) && !state.HasOutcome)
                broken.Add(caller);
        }

        await auditor.AddAsync(reader.Account.Id, AuditDeed.ListedCallers, null, context.RequestAborted);
        var names = (await staff.AllAsync(context.RequestAborted)).ToImmutableDictionary(a => a.Id, a => a.ShownName);
        var visit = StaffForm.ReadLine(context.Request.Query[Visit]);
        await PageResponse.SendAsync(context, StaffFrame.Write(reader, reader.Words["callers heading"], html => WritePage(html, reader, visit, broken.ToImmutable(), names)));
    }

    public async Task BeginAsync(HttpContext context)
    {
        if (await gate.TakeAsync(context, DeskPages.Roles) is not var (by, fields))
            return;
        var secret = Secret.New();
        if (await talk.BeginAsync(secret, [], context.RequestAborted) is not TakenTurns.Kept { Conversation.Id: var conversation })
        {
            await faults.SendEmergencyAsync(context, isNotSaved: true);
            return;
        }

        await HoldAsync(context, by, fields, secret, conversation);
    }

    /// <summary>Goes on, for a caller, with the conversation that knows what was found at a visit.</summary>
    public async Task AfterVisitAsync(HttpContext context)
    {
        if (await gate.TakeAsync(context, DeskPages.Roles) is not var (by, fields))
            return;
        var conversation = (string)context.Request.RouteValues["id"]!;
        var (link, secret) = (Secret.New(), Secret.New());
        if (!await visits.LinkAsync(conversation, Secret.NewIdentifier(), Talk.KeyOfLink(link), context.RequestAborted))
            await faults.SendAsync(context, StatusCodes.Status404NotFound);
        else if (await talk.OpenLinkAsync(link, secret, Secret.NewIdentifier(), context.RequestAborted) is not TakenTurns.Kept)
            await faults.SendEmergencyAsync(context, isNotSaved: true);
        else
            await HoldAsync(context, by, fields, secret, conversation);
    }

    async Task HoldAsync(HttpContext context, SignedIn by, IFormCollection fields, string secret, string conversation)
    {
        await auditor.AddAsync(by.Account.Id, AuditDeed.BeganForCaller, conversation, context.RequestAborted);
        await callers.PutAsync(new Caller(conversation, by.Account.Id, desk.Now, StaffForm.ReadLine(fields[Number]), null), context.RequestAborted);
        PatientCookie.Write(context, secret, settings.UnfinishedFor);
        CallerMark.Set(context, conversation);
        await PageResponse.GoToAsync(context, "/letter#now");
    }

    public async Task FollowUpAsync(HttpContext context)
    {
        if (await gate.TakeAsync(context, DeskPages.Roles) is not var (by, _))
            return;
        if (await callers.FindAsync((string)context.Request.RouteValues["id"]!, context.RequestAborted) is { } caller)
        {
            await auditor.AddAsync(by.Account.Id, AuditDeed.FollowedUpCaller, caller.Conversation, context.RequestAborted);
            await callers.PutAsync(caller with { FollowedUpBy = by.Account.Id }, context.RequestAborted);
        }

        await PageResponse.GoToAsync(context, Address);
    }

    /// <summary>Nothing of the caller's conversation stays in this browser; it goes on by its private link or its receipt code.</summary>
    public async Task EndAsync(HttpContext context)
    {
        if (await gate.TakeAsync(context, DeskPages.Roles) is null)
            return;
        PatientCookie.Clear(context);
        CallerMark.Clear(context);
        await PageResponse.GoToAsync(context, Address);
    }

    static void WritePage(HtmlWriter html, SignedIn reader, string visit, ImmutableArray<Caller> broken, ImmutableDictionary<string, string> names)
    {
        var words = reader.Words;
        html.Element("h1"u8, words["callers heading"]).Element("p"u8, words["callers hint"]);
        StaffForm.Begin(html, Address + (visit.Length > 0 ? $"/visits/{Uri.EscapeDataString(visit)}" : ""), reader.Token);
        StaffForm.WriteLine(html, words, Number, "caller number", "text", "off", hint: "caller number hint");
        StaffForm.End(html, words, visit.Length > 0 ? "callers after visit" : "callers begin");
        StaffForm.Begin(html, Address + "/end", reader.Token);
        html.Element("p"u8, words["callers end hint"]);
        StaffForm.End(html, words, "callers end");
        html.Element("h2"u8, words["callers broken"]);
        if (broken.IsEmpty)
            html.Element("p"u8, words["callers none"]);
        foreach (var caller in broken)
        {
            html.Markup("<section><p><strong>"u8).Typed(caller.Number.Length > 0 ? caller.Number : words["callers no number"]).Markup("</strong> "u8)
                .Text(words.Letter.Text("callers begun", ("moment", words.Letter.Moment(caller.At)), ("who", names.GetValueOrDefault(caller.By, caller.By)))).Markup("</p>"u8);
            StaffForm.Begin(html, $"{Address}/{caller.Conversation}/followed-up", reader.Token);
            StaffForm.End(html, words, "callers followed up").Markup("</section>"u8);
        }
    }
}
