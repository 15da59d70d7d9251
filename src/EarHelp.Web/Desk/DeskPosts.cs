using System.Globalization;
using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Desk;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using EarHelp.Clinic.Times;
using EarHelp.Web.Pages;
using EarHelp.Web.Staff;
using EarHelp.Web.Turns;
using NodaTime;

namespace EarHelp.Web.Desk;

/// <summary>What staff do about a request. Each stands in the audit trail before it is done, and on the patient's page after it.</summary>
public sealed class DeskPosts(StaffGate gate, RequestDesk desk, DeskPages pages, VisitRequests requests, Auditor auditor, FaultPages faults)
{
    public async Task AcceptAsync(HttpContext context)
    {
        if (await OpenAsync(context) is not { } asked)
            return;
        if (asked.Opened.Request.Booked is null)
            await pages.SendRequestAsync(context, asked.By, "desk no time", asked.Fields);
        else
            await DoAsync(context, asked, AuditDeed.AcceptedRequest, (request, now) => request.Stepped(Step(asked, DeskStepKind.Accepted, now, ""), asked.Form, now));
    }

    /// <summary>Holds a time until the person confirms it; or books it, if that was agreed already.</summary>
    public async Task TimeAsync(HttpContext context)
    {
        if (await OpenAsync(context) is not { } asked)
            return;
        var chosen = long.TryParse(asked.Fields[HandoverForms.Start], NumberStyles.None, CultureInfo.InvariantCulture, out var start)
            ? (asked.Opened.Free ?? []).Where(t => t.Start.ToUnixTimeMilliseconds() == start).Select(t => (VisitTime?)t).FirstOrDefault()
            : null;
        if (chosen is not { } time)
        {
            await pages.SendRequestAsync(context, asked.By, asked.Opened.Request.HasTaken(asked.Form) ? null : "desk time gone", asked.Fields);
            return;
        }

        var isAgreed = asked.Fields["agreed"] == "yes";
        await DoAsync(context, asked, isAgreed ? AuditDeed.BookedTime : AuditDeed.OfferedTime, (request, now) =>
        {
            var held = request.Holding(time, HeldUntil(asked.Opened, time, now), asked.Form, now);
            var step = Step(asked, isAgreed ? DeskStepKind.Accepted : DeskStepKind.OfferedTime, now, "") with { Time = time };
            var done = isAgreed ? held.Confirmed(asked.Form, now) : held;
            return done with { Version = request.Version + 1, Steps = [.. request.Steps, step] };
        });
    }

    public async Task TelephoneAsync(HttpContext context)
    {
        if (await OpenAsync(context) is not { } asked)
            return;
        var isReached = asked.Fields["reached"] != "no";
        var note = StaffForm.ReadLine(asked.Fields[HandoverForms.Note], HandoverForms.LongestNote);
        if (isReached && note.Length == 0)
        {
            await pages.SendRequestAsync(context, asked.By, "desk note missing", asked.Fields);
            return;
        }

        var kind = isReached ? DeskStepKind.Telephoned : DeskStepKind.NotReached;
        await DoAsync(context, asked, isReached ? AuditDeed.Telephoned : AuditDeed.NotReached, (request, now) => request.Stepped(Step(asked, kind, now, note), asked.Form, now));
    }

    public async Task DidNotComeAsync(HttpContext context)
    {
        if (await OpenAsync(context) is not { } asked)
            return;
        if (asked.Opened.Request.Booked is not { } booked || booked.Start > desk.Now)
            await pages.SendRequestAsync(context, asked.By, "desk not over", asked.Fields);
        else
            await DoAsync(context, asked, AuditDeed.DidNotCome, (request, now) =>
                request.Cancelled(asked.Form, now) with { Steps = [.. request.Steps, Step(asked, DeskStepKind.DidNotCome, now, "") with { Time = booked }] });
    }

    /// <summary>The time that the person had is given back.</summary>
    public async Task ElsewhereAsync(HttpContext context)
    {
        if (await OpenAsync(context) is not { } asked)
            return;
        var place = asked.Opened.Edition.Dialog.Destinations.FirstOrDefault(d => d.Id == asked.Fields[HandoverForms.Place]);
        var note = StaffForm.ReadLine(asked.Fields[HandoverForms.Advice], HandoverForms.LongestNote);
        if (place is null)
            await pages.SendRequestAsync(context, asked.By, "desk place missing", asked.Fields);
        else
            await DoAsync(context, asked, AuditDeed.SentElsewhere, (request, now) =>
                request.Cancelled(asked.Form, now) with { Steps = [.. request.Steps, Step(asked, DeskStepKind.SentElsewhere, now, note) with { Place = place.Id }] });
    }

    public async Task LevelAsync(HttpContext context)
    {
        if (await OpenAsync(context) is not { } asked)
            return;
        var level = asked.Opened.Edition.Dialog.Levels.FirstOrDefault(l => l.Id == asked.Fields[HandoverForms.Level]);
        var because = StaffForm.ReadLine(asked.Fields[HandoverForms.Reason], HandoverForms.LongestNote);
        var before = asked.Opened.Request.Urgency;
        if (level is null || !Judging.IsAllowed(asked.By.Account, before, level) || because.Length == 0)
        {
            await pages.SendRequestAsync(context, asked.By, level is null ? "desk level missing" : because.Length == 0 ? "desk reason missing" : "desk level refused", asked.Fields);
            return;
        }

        var zone = asked.Opened.Edition.Edition.Clinic.Zone;
        await DoAsync(context, asked, level.Rank < before.Rank ? AuditDeed.RaisedLevel : AuditDeed.LoweredLevel, (request, now) =>
            request.JudgedAs(Judging.Of(level, before, because, asked.By.Account.Id, now, zone), asked.Form, now));
    }

    /// <summary>
    /// Until the patient goes elsewhere if nobody answers, and not past the moment from which the visit could not be planned any more; but at
    /// least as long as the clinic holds a time for anybody.
    /// </summary>
    static Instant HeldUntil(OpenedRequest opened, VisitTime time, Instant now)
    {
        var lengths = opened.Edition.Edition.Clinic.Lengths;
        var latest = time.Start - Duration.FromMinutes(lengths?.NoticeMinutes ?? 0);
        if (opened.Request.Urgency.AnswerBy is { } answer && answer < latest)
            latest = answer;
        return Instant.Max(latest, now + Duration.FromMinutes(lengths?.HoldMinutes ?? 0));
    }

    static DeskStep Step(AskedOfDesk asked, DeskStepKind kind, Instant now, string note) =>
        new(kind, asked.By.Account.Id, now, note, asked.Opened.Request.Urgency);

    async Task DoAsync(HttpContext context, AskedOfDesk asked, AuditDeed deed, Func<VisitRequest, Instant, VisitRequest> next)
    {
        var conversation = asked.Opened.Request.Conversation;
        await auditor.AddAsync(asked.By.Account.Id, deed, conversation, context.RequestAborted);
        switch (await requests.ChangeAsync(conversation, asked.Form, next, context.RequestAborted))
        {
            case RequestPut.Kept:
                await PageResponse.GoToAsync(context, $"{StaffParts.Prefix}/desk/{conversation}#done");
                break;
            case RequestPut.TimeTaken:
                await pages.SendRequestAsync(context, asked.By, "desk time gone", asked.Fields);
                break;
            default:
                await faults.SendAsync(context, StatusCodes.Status404NotFound);
                break;
        }
    }

    /// <summary>Null if it was refused, and then that has been said.</summary>
    async Task<AskedOfDesk?> OpenAsync(HttpContext context)
    {
        if (await gate.TakeAsync(context, DeskPages.Roles) is not var (by, fields))
            return null;
        var form = fields[FormFields.Turn].ToString();
        if (form.Length is > 0 and <= SentForm.LongestTurn && await desk.OpenAsync((string)context.Request.RouteValues["id"]!, context.RequestAborted) is { } opened)
            return new AskedOfDesk(by, fields, form, opened);
        await faults.SendAsync(context, form.Length == 0 ? StatusCodes.Status400BadRequest : StatusCodes.Status404NotFound);
        return null;
    }

    sealed record AskedOfDesk(SignedIn By, IFormCollection Fields, string Form, OpenedRequest Opened);
}
