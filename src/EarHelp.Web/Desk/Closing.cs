using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Desk;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using EarHelp.Clinic.Times;
using EarHelp.Triage.Deadlines;
using EarHelp.Web.Editions;
using EarHelp.Web.Staff;
using NodaTime;
using NodaTime.Text;

namespace EarHelp.Web.Desk;

/// <summary>Closing from now to a day in one step: offers stop at once, visits inside it are called off, and their patients read where to go instead.</summary>
public sealed class Closing(ClosedAtOnce closed, IRequestStore store, VisitRequests requests, ServedEditions editions, Auditor auditor, DeskBell bell, TimeProvider clock)
{
    Instant Now => Instant.FromUnixTimeMilliseconds(clock.GetUtcNow().ToUnixTimeMilliseconds());

    internal SuddenClosing? InForce => editions.Current?.Calendar.ClosedAtOnce(Now);

    internal LocalDate? Today => editions.Current is { } served ? Now.InZone(served.Edition.Clinic.Zone).Date : null;

    /// <param name="by">Identifier of the account.</param>
    internal async Task CloseAsync(string by, LocalDate lastDay, CancellationToken cancellation)
    {
        await auditor.AddAsync(by, AuditDeed.ClosedClinic, null, cancellation);
        await closed.CloseAsync(Now, lastDay, cancellation);
        await CallOffAsync(by, cancellation);
        bell.Ring();
    }

    internal async Task OpenAsync(string by, CancellationToken cancellation)
    {
        await auditor.AddAsync(by, AuditDeed.OpenedClinic, null, cancellation);
        await closed.LiftAsync(Now, cancellation);
        bell.Ring();
    }

    /// <summary>Calls off every visit inside the closing that is in force; what was called off before stays so.</summary>
    internal async Task CallOffAsync(string by, CancellationToken cancellation)
    {
        if (InForce is not { } closing || editions.Current is not { } served)
            return;
        var until = closing.LastDay.PlusDays(1).AtStartOfDayInZone(served.Edition.Clinic.Zone).ToInstant();
        foreach (var request in (await store.WaitingAsync(cancellation)).Select(k => k.Request).Where(r => Inside(r, until, Now) is not null))
        {
            await auditor.AddAsync(by, AuditDeed.CalledOffVisit, request.Conversation, cancellation);
            var form = $"closed {InstantPattern.ExtendedIso.Format(closing.SetAt)} {request.Version}";
            await requests.ChangeAsync(request.Conversation, form, (kept, now) => CalledOff(kept, by, form, until, now), cancellation);
        }
    }

    static VisitRequest? CalledOff(VisitRequest request, string by, string form, Instant until, Instant now) => Inside(request, until, now) is { } time
        ? request.Cancelled(form, now) with { Steps = [.. request.Steps, new DeskStep(DeskStepKind.CalledOff, by, now, "", request.Urgency) { Time = time }] }
        : null;

    /// <summary>A time of the request that has not ended yet and begins before the clinic is open again.</summary>
    static VisitTime? Inside(VisitRequest request, Instant until, Instant now) =>
        request.TakenAt(now).Where(t => t.Start < until && t.End > now).Select(t => (VisitTime?)t).FirstOrDefault();
}
