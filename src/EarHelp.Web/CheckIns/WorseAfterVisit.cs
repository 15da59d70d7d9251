using System.Globalization;
using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.CheckIns;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Taking;
using EarHelp.Web.Staff;

namespace EarHelp.Web.CheckIns;

/// <summary>Brings patients who are not well after a visit before the desk, with the limit to which the questions led.</summary>
public sealed class WorseAfterVisit(IFollowUps followUps, IVisitStore visits, IRequestStore store, VisitRequests requests, TurnTaking taking, Auditor auditor)
{
    /// <param name="told">What the questions led to last.</param>
    public async ValueTask TellDeskAsync(string conversation, OutcomeTold? told, CancellationToken cancellation)
    {
        if (await followUps.FindAsync(conversation, cancellation) is { } followUp)
            await TellDeskAsync(followUp, told, cancellation);
    }

    /// <summary>Looks once at every patient whose last answer was that something is not well: a service that was cut off tells the desk now.</summary>
    /// <returns>Whose questions were left without an end.</returns>
    public async ValueTask<int> LookAsync(CancellationToken cancellation)
    {
        var left = 0;
        foreach (var followUp in (await followUps.AllAsync(cancellation)).Where(f => f.Replies.LastOrDefault() is { IsWell: false }))
        {
            var told = await taking.FindAsync(followUp.Conversation, cancellation) is var (_, state) ? state.Told : null;
            await TellDeskAsync(followUp, told, cancellation);
            left += followUp.Replies[^1].Day != BeforeVisit.Day && Worsening.IsLeft(followUp, told?.DecidedAt) ? 1 : 0;
        }

        return left;
    }

    /// <summary>Before a visit the request is there: the desk sees at once that the patient is not well, and later what the questions led to.</summary>
    public async ValueTask TellDeskBeforeVisitAsync(VisitRequest request, string form, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(request);
        await auditor.AddAsync(Actor.Service, AuditDeed.NotWellAfterVisit, request.Conversation, cancellation);
        await requests.NotWellAsync(request.Conversation, form, request.Urgency, ContactDetails.Empty, cancellation);
    }

    async ValueTask TellDeskAsync(FollowUp followUp, OutcomeTold? told, CancellationToken cancellation)
    {
        var conversation = followUp.Conversation;
        if (told is null || !Worsening.IsForDesk(followUp, told, (await store.FindAsync(conversation, cancellation))?.Request))
            return;
        var before = await visits.FindAsync(conversation, cancellation) is { Before: { } asked } ? (await store.FindAsync(asked, cancellation))?.Contact : null;
        await auditor.AddAsync(Actor.Service, AuditDeed.NotWellAfterVisit, conversation, cancellation);
        var form = "not well " + told.DecidedAt.ToUnixTimeMilliseconds().ToString(CultureInfo.InvariantCulture);
        await requests.NotWellAsync(conversation, form, Urgency.Of(told), Worsening.ContactOf(followUp, before), cancellation);
    }
}
