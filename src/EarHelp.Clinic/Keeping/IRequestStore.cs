using System.Collections.Immutable;
using EarHelp.Clinic.Requests;
using EarHelp.Conversation.Keeping;

namespace EarHelp.Clinic.Keeping;

/// <summary>Keeps requests for visits, and how to reach who asked, apart from the conversations. Erasing a conversation erases both.</summary>
public interface IRequestStore
{
    /// <summary>Keeps version n of a request if n-1 is the last; given only once it is on the disk.</summary>
    /// <param name="contact">Replaces what is kept; null: what is kept is removed, so that no page of any file holds it.</param>
    /// <exception cref="StoreFailedException">It is not kept.</exception>
    ValueTask<RequestPut> PutAsync(VisitRequest request, ContactDetails? contact, CancellationToken cancellation);

    ValueTask<KeptRequest?> FindAsync(string conversation, CancellationToken cancellation);

    /// <summary>All requests that wait.</summary>
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
}
