using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Desk;
using EarHelp.Clinic.Requests;
using EarHelp.Clinic.Staff;
using EarHelp.Clinic.Times;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Stepping;
using NodaTime;

namespace EarHelp.Cli.Demonstrating;

/// <summary>What patients and staff of the invented week do about a request that was sent.</summary>
sealed class InventedDesk(InventedClinic clinic, InventedPeople people, InventedStaffRoom staff)
{
    const int TimesLookedAt = 12;

    ServedEdition Edition => clinic.Edition;

    Instant Now => clinic.Clock.Now;

    /// <summary>Sends the request of a conversation that has just been told its outcome.</summary>
    public async Task<VisitRequest> AskAsync(string conversation, OutcomeTold told, ContactDetails contact, CancellationToken cancellation)
    {
        await clinic.Requests.AskAsync(conversation, people.NextIdentifier(), Urgency.Of(told), contact, cancellation).ConfigureAwait(false);
        return (await clinic.Requests.FindAsync(conversation, cancellation).ConfigureAwait(false))!.Request;
    }

    /// <summary>The patient takes the first time that is free, after the one that is booked already.</summary>
    /// <returns>Null: none is free before the limit.</returns>
    public async Task<VisitTime?> BookAsync(string conversation, OutcomeTold told, CancellationToken cancellation)
    {
        if (await FirstFreeAsync(conversation, told, cancellation).ConfigureAwait(false) is not { } time)
            return null;
        var heldFor = Duration.FromMinutes(Edition.Edition.Clinic.Lengths!.HoldMinutes);
        await clinic.Requests.HoldAsync(conversation, people.NextIdentifier(), time, heldFor, cancellation).ConfigureAwait(false);
        await clinic.Requests.ConfirmAsync(conversation, people.NextIdentifier(), cancellation).ConfigureAwait(false);
        return time;
    }

    public async Task CancelAsync(string conversation, CancellationToken cancellation) =>
        await clinic.Requests.CancelAsync(conversation, people.NextIdentifier(), cancellation).ConfigureAwait(false);

    public async Task TakeBackAsync(string conversation, CancellationToken cancellation) =>
        await clinic.Requests.WithdrawAsync(conversation, people.NextIdentifier(), cancellation).ConfigureAwait(false);

    public Task AcceptAsync(string conversation, CancellationToken cancellation) =>
        StepAsync(conversation, AuditDeed.AcceptedRequest, DeskStepKind.Accepted, "", cancellation);

    public Task TelephoneAsync(string conversation, string note, bool isReached, CancellationToken cancellation) => isReached
        ? StepAsync(conversation, AuditDeed.Telephoned, DeskStepKind.Telephoned, note, cancellation)
        : StepAsync(conversation, AuditDeed.NotReached, DeskStepKind.NotReached, note, cancellation);

    /// <summary>A time is held for the patient, as long as somebody may still answer.</summary>
    public async Task OfferAsync(string conversation, OutcomeTold told, CancellationToken cancellation)
    {
        if (await FirstFreeAsync(conversation, told, cancellation).ConfigureAwait(false) is not { } time)
            return;
        await DoAsync(conversation, AuditDeed.OfferedTime, StaffRole.Desk, (request, by, form, now) =>
        {
            var held = request.Holding(time, request.Urgency.AnswerBy ?? time.Start, form, now);
            return held with { Steps = [.. request.Steps, new DeskStep(DeskStepKind.OfferedTime, by, now, "", request.Urgency) { Time = time }] };
        }, cancellation).ConfigureAwait(false);
    }

    public Task SendElsewhereAsync(string conversation, string place, string note, CancellationToken cancellation) =>
        DoAsync(conversation, AuditDeed.SentElsewhere, StaffRole.Clinician, (request, by, form, now) => request.Cancelled(form, now) with
        {
            Steps = [.. request.Steps, new DeskStep(DeskStepKind.SentElsewhere, by, now, note, request.Urgency) { Place = place }],
        }, cancellation);

    public Task DidNotComeAsync(string conversation, VisitTime booked, CancellationToken cancellation) =>
        DoAsync(conversation, AuditDeed.DidNotCome, StaffRole.Desk, (request, by, form, now) => request.Cancelled(form, now) with
        {
            Steps = [.. request.Steps, new DeskStep(DeskStepKind.DidNotCome, by, now, "", request.Urgency) { Time = booked }],
        }, cancellation);

    public Task JudgeAsync(string conversation, string level, bool isRaised, string because, CancellationToken cancellation) =>
        DoAsync(conversation, isRaised ? AuditDeed.RaisedLevel : AuditDeed.LoweredLevel, StaffRole.Clinician, (request, by, form, now) =>
        {
            var found = Edition.Dialog.Levels.First(l => l.Id == level);
            return request.JudgedAs(Judging.Of(found, request.Urgency, because, by, now, Edition.Edition.Clinic.Zone), form, now);
        }, cancellation);

    async ValueTask<VisitTime?> FirstFreeAsync(string conversation, OutcomeTold told, CancellationToken cancellation)
    {
        var kept = (await clinic.Requests.FindAsync(conversation, cancellation).ConfigureAwait(false))!;
        var kind = VisitKind.Of(told, kept.Contact?.Needs.BeenBefore ?? false);
        var after = kept.Request.Booked?.Start;
        var free = await clinic.Times.FindAsync(Edition, conversation, kind, kept.Request.Urgency.SeenBy, after, TimesLookedAt, cancellation).ConfigureAwait(false);
        return free is [var first, ..] ? first : null;
    }

    Task StepAsync(string conversation, AuditDeed deed, DeskStepKind kind, string note, CancellationToken cancellation) =>
        DoAsync(conversation, deed, StaffRole.Desk, (request, by, form, now) => request.Stepped(new DeskStep(kind, by, now, note, request.Urgency), form, now), cancellation);

    /// <summary>Who looks into a request stands in the audit trail, and so does what is done about it.</summary>
    async Task DoAsync(
        string conversation, AuditDeed deed, StaffRole role, Func<VisitRequest, string, string, Instant, VisitRequest> next, CancellationToken cancellation)
    {
        var (by, form) = (staff.Of(role).Id, people.NextIdentifier());
        await clinic.Auditor.AddAsync(by, AuditDeed.ReadConversation, conversation, cancellation).ConfigureAwait(false);
        await clinic.Auditor.AddAsync(by, deed, conversation, cancellation).ConfigureAwait(false);
        await clinic.Requests.ChangeAsync(conversation, form, (request, _) => next(request, by, form, Now), cancellation).ConfigureAwait(false);
    }
}
