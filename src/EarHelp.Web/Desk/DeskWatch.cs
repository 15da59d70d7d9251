using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Desk;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using EarHelp.Conversation.Keeping;
using EarHelp.Web.Serving;
using EarHelp.Web.Staff;
using NodaTime;
using NodaTime.Text;

namespace EarHelp.Web.Desk;

/// <summary>Every minute, on one node at a time: what nobody has answered in time goes to whoever is on duty, and visits inside a closing at once are called off.</summary>
public sealed partial class DeskWatch(
    IKeptElsewhere elsewhere, RequestDesk desk, VisitRequests requests, IStaffStore staff, EscalatedNow escalated, Closing closing, Auditor auditor, TimeProvider clock, ILogger<DeskWatch> log)
    : TimedWatch("desk", TimeSpan.Zero, TimeSpan.FromMinutes(1), clock, log)
{
    protected override async Task LookAloneAsync(CancellationToken cancellation)
    {
        var claimed = await elsewhere.ClaimAsync("desk", cancellation);
        await using var _ = claimed;
        if (claimed is not null)
            await closing.CallOffAsync(Actor.Service, cancellation);
        var order = await desk.QueueAsync(cancellation);
        var accounts = await staff.AllAsync(cancellation);
        var names = string.Join(", ", Escalation.OnDuty(accounts).Select(a => a.ShownName));
        var unanswered = 0;
        foreach (var request in order.Unanswered.Select(k => k.Request))
        {
            var isDue = Escalation.IsDue(request, request.Urgency, desk.Now);
            if (isDue && claimed is not null)
                await EscalateAsync(request, names, cancellation);
            else if (!isDue && !Escalation.IsEscalated(request, request.Urgency))
                continue;
            unanswered++;
        }

        escalated.Set(unanswered, accounts);
    }

    /// <param name="names">Of who is on duty.</param>
    async Task EscalateAsync(VisitRequest request, string names, CancellationToken cancellation)
    {
        await auditor.AddAsync(Actor.Service, AuditDeed.Escalated, request.Conversation, cancellation);
        var form = $"escalated {request.Urgency.Rank} {InstantPattern.ExtendedIso.Format(request.SentAgainAt ?? request.MadeAt)}";
        var step = new DeskStep(DeskStepKind.Escalated, Actor.Service, desk.Now, names, request.Urgency);
        await requests.ChangeAsync(request.Conversation, form, (kept, now) => kept.Stepped(step with { At = now }, form, now), cancellation);
        LogEscalated(Log, request.Conversation);
    }

    [LoggerMessage(Level = LogLevel.Warning, Message = "Nobody has answered the request of conversation {Conversation} in half of its time; it is shown to whoever is on duty.")]
    static partial void LogEscalated(ILogger log, string conversation);
}
