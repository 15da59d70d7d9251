using System.Collections.Concurrent;
using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Desk;
using EarHelp.Clinic.Staff;
using EarHelp.Web.CheckIns;
using EarHelp.Web.Pages;
using EarHelp.Web.Security;
using EarHelp.Web.Staff;

namespace EarHelp.Web.Desk;

/// <summary>The list of requests and the page of one of them. What is read stands in the audit trail first.</summary>
public sealed class DeskPages(StaffGate gate, RequestDesk desk, CheckInWatch checkIns, Auditor auditor, FaultPages faults)
{
    /// <summary>Which requests an account was shown last: a list that only counts the minutes down is not read anew.</summary>
    readonly ConcurrentDictionary<string, string> _shown = new(StringComparer.Ordinal);

    internal static StaffRole[] Roles { get; } = [StaffRole.Desk, StaffRole.Clinician];

    public async Task QueueAsync(HttpContext context)
    {
        if (await gate.ReadAsync(context, Roles) is not { } reader)
            return;
        var queue = await desk.QueueAsync(context.RequestAborted);
        var isPart = PageResponse.WantsPart(context);
        var shown = string.Join(' ', queue.Unanswered.Concat(queue.Answered).Select(k => k.Request.Conversation).Order(StringComparer.Ordinal));
        if (!isPart || _shown.GetValueOrDefault(reader.Account.Id) != shown)
            await auditor.AddAsync(reader.Account.Id, AuditDeed.ListedRequests, null, context.RequestAborted);
        _shown[reader.Account.Id] = shown;
        await PageResponse.SendAsync(context, isPart ? QueuePage.WritePart(reader.Words, queue, checkIns.Left, desk.Now) : QueuePage.Write(reader, queue, checkIns.Left, desk.Now));
    }

    public async Task RequestAsync(HttpContext context)
    {
        if (await gate.ReadAsync(context, Roles) is { } reader)
            await SendRequestAsync(context, reader, null);
    }

    /// <param name="sent">What was written stays written after a fault.</param>
    internal async Task SendRequestAsync(HttpContext context, SignedIn reader, string? fault, IFormCollection? sent = null)
    {
        var conversation = (string)context.Request.RouteValues["id"]!;
        if (await desk.OpenAsync(conversation, context.RequestAborted) is not { } opened)
        {
            await faults.SendAsync(context, StatusCodes.Status404NotFound);
            return;
        }

        await auditor.AddAsync(reader.Account.Id, AuditDeed.ReadConversation, conversation, context.RequestAborted);
        var page = HandoverPage.Write(reader, opened, fault, sent, Secret.NewIdentifier(), desk.Now);
        await PageResponse.SendAsync(context, page, fault is null ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity);
    }
}
