using System.Collections.Immutable;
using EarHelp.Clinic.Requests;
using EarHelp.Clinic.Times;
using EarHelp.Conversation.Keeping;
using NodaTime;

namespace EarHelp.Clinic.Keeping;

/// <summary>Keeps requests for visits, and how to reach who asked, apart from the conversations. Erasing a conversation erases both.</summary>
public interface IRequestStore
{
    /// <summary>
    /// Keeps version n of a request if n-1 is the last, and if nobody else has a time of it at the moment of the change: two people never
    /// have the same time. Given only once it is on the disk.
    /// </summary>
    /// <param name="contact">Replaces what is kept; null: what is kept is removed, so that no page of any file holds it.</param>
    /// <exception cref="StoreFailedException">It is not kept.</exception>
    ValueTask<RequestPut> PutAsync(VisitRequest request, ContactDetails? contact, CancellationToken cancellation);

    ValueTask<KeptRequest?> FindAsync(string conversation, CancellationToken cancellation);

    /// <summary>The times that others have at a moment: booked ones, and those that are still held.</summary>
    /// <param name="except">Whose times are left out.</param>
    ValueTask<ImmutableArray<VisitTime>> TakenAsync(Instant now, string except, CancellationToken cancellation);

    /// <summary>All requests that stand.</summary>
    ValueTask<ImmutableArray<KeptRequest>> WaitingAsync(CancellationToken cancellation);

    /// <summary>Removes requests that were last changed before the given instant, with how to reach who asked; returns how many.</summary>
    ValueTask<int> SweepRequestsAsync(long changedBeforeUnixMilliseconds, CancellationToken cancellation);
}

/// <param name="Contact">Null once the request is withdrawn.</param>
public sealed record KeptRequest(VisitRequest Request, ContactDetails? Contact);

/// <summary>What became of a request that was handed to the store.</summary>
public enum RequestPut
{
    Kept,

    /// <summary>Another version came first: read again, decide again.</summary>
    Stale,

    /// <summary>There is no such conversation any more: nothing is kept of it.</summary>
    Gone,

    /// <summary>Somebody else has the time, or a part of it.</summary>
    TimeTaken,
}
