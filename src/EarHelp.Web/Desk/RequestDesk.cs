using System.Collections.Immutable;
using EarHelp.Clinic.Desk;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using EarHelp.Clinic.Times;
using EarHelp.Clinic.Visits;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Taking;
using EarHelp.Web.Pages;
using NodaTime;

namespace EarHelp.Web.Desk;

/// <summary>What the desk looks at: all requests that stand, and one of them with its conversation.</summary>
public sealed class RequestDesk(IRequestStore requests, IVisitStore visits, ITurnStore turns, TurnTaking taking, TimesToOffer times, IStaffStore staff, TimeProvider clock)
{
    /// <summary>As many times as a person at the desk looks over.</summary>
    const int TimesShown = 12;

    internal Instant Now => Instant.FromUnixTimeMilliseconds(clock.GetUtcNow().ToUnixTimeMilliseconds());

    internal async Task<DeskOrder> QueueAsync(CancellationToken cancellation) =>
        DeskOrder.Of(await WaitingRequests.FindAsync(requests, turns, cancellation), Now);

    async Task<ImmutableArray<KeptRequest>> SamePersonAsync(KeptRequest kept, CancellationToken cancellation) =>
        [.. (await requests.WaitingAsync(cancellation)).Where(o => o.Request.Conversation != kept.Request.Conversation && o.Contact?.IsSameAs(kept.Contact) == true)];

    async Task<ImmutableArray<Visit>> VisitsAsync(string conversation, CancellationToken cancellation) =>
        [.. (await visits.AllAsync(cancellation)).Where(v => v.Conversation == conversation || v.Before == conversation)];

    /// <returns>Null if there is no such request any more.</returns>
    internal async Task<OpenedRequest?> OpenAsync(string conversation, CancellationToken cancellation)
    {
        if (await requests.FindAsync(conversation, cancellation) is not { Request.State: RequestState.Waiting } kept
            || await taking.FindAsync(conversation, cancellation) is not var (edition, state))
            return null;
        var history = await taking.HistoryAsync(conversation, cancellation);
        ImmutableArray<OutcomeTold> outcomes = [.. history.SelectMany(t => t.Replies.OfType<Reply.Outcome>()).Select(o => o.Told)];

        // Who started over after asking still waits: what was told last counts until something else is told.
        if ((state.Told ?? outcomes.LastOrDefault()) is not { } told)
            return null;
        kept = kept with { Request = kept.Request with { Urgency = kept.Request.UrgencyAfter(outcomes) } };
        var kind = VisitKind.Of(told, kept.Contact?.Needs.BeenBefore ?? false);
        var free = await times.FindAsync(edition, conversation, kind, kept.Request.Urgency.SeenBy, null, TimesShown, cancellation);
        var names = (await staff.AllAsync(cancellation)).ToImmutableDictionary(a => a.Id, a => a.ShownName);
        return new OpenedRequest(kept, edition, told, Words.Of(edition, state), Handover.Of(edition.Dialog, told, history.Select(t => t.Turn)), free, await SamePersonAsync(kept, cancellation), await VisitsAsync(conversation, cancellation), names);
    }
}
