using System.Collections.Immutable;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using NodaTime;

namespace EarHelp.Clinic.Desk;

/// <summary>The order of the desk: who must be seen first stands first, and never who came first.</summary>
/// <param name="Unanswered">By the time by which someone should look, then by how urgent, then by the time from which the patient goes elsewhere.</param>
/// <param name="Answered">In the same order.</param>
public sealed record DeskOrder(ImmutableArray<KeptRequest> Unanswered, ImmutableArray<KeptRequest> Answered)
{
    public static DeskOrder Of(ImmutableArray<KeptRequest> waiting, Instant now)
    {
        var sorted = waiting.OrderBy(k => k.Request.Urgency.SeenBy ?? Instant.MaxValue)
            .ThenBy(k => k.Request.Urgency.Rank)
            .ThenBy(k => k.Request.Urgency.AnswerBy ?? Instant.MaxValue)
            .ThenBy(k => k.Request.Conversation, StringComparer.Ordinal)
            .ToLookup(k => k.Request.IsAnswered(k.Request.Urgency, now));
        return new DeskOrder([.. sorted[false]], [.. sorted[true]]);
    }
}
