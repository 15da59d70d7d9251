using System.Collections.Immutable;
using System.Text.Json;
using EarHelp.Clinic.Keeping;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Records;
using EarHelp.Conversation.Replies;

namespace EarHelp.Clinic.Requests;

/// <summary>The requests that wait, each as urgent as the most urgent thing that its conversation was told.</summary>
public static class WaitingRequests
{
    public static async ValueTask<ImmutableArray<KeptRequest>> FindAsync(IRequestStore requests, ITurnStore turns, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(requests);
        ArgumentNullException.ThrowIfNull(turns);
        var waiting = ImmutableArray.CreateBuilder<KeptRequest>();
        foreach (var kept in await requests.WaitingAsync(cancellation).ConfigureAwait(false))
            waiting.Add(await AsUrgentAsync(kept, turns, cancellation).ConfigureAwait(false));
        return waiting.ToImmutable();
    }

    /// <summary>The request of one conversation in the same way; null: none waits there.</summary>
    public static async ValueTask<KeptRequest?> FindOneAsync(IRequestStore requests, ITurnStore turns, string conversation, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(requests);
        ArgumentNullException.ThrowIfNull(turns);
        return await requests.FindAsync(conversation, cancellation).ConfigureAwait(false) is { Request.State: RequestState.Waiting } kept
            ? await AsUrgentAsync(kept, turns, cancellation).ConfigureAwait(false)
            : null;
    }

    static async ValueTask<KeptRequest> AsUrgentAsync(KeptRequest kept, ITurnStore turns, CancellationToken cancellation) =>
        kept with { Request = kept.Request with { Urgency = await WorstAsync(kept.Request, turns, cancellation).ConfigureAwait(false) } };

    /// <summary>What changed after the request was sent counts too. If the conversation cannot be read, the request stays as it was sent.</summary>
    static async ValueTask<Urgency> WorstAsync(VisitRequest request, ITurnStore turns, CancellationToken cancellation)
    {
        try
        {
            var records = await turns.LoadAsync(request.Conversation, cancellation).ConfigureAwait(false);
            return request.UrgencyAfter(records.SelectMany(r => TurnJson.Read(r.Body.Span).Replies.OfType<Reply.Outcome>()).Select(o => o.Told));
        }
        catch (Exception damaged) when (damaged is StoreFailedException or JsonException)
        {
            return request.UrgencyAfter([]);
        }
    }
}
