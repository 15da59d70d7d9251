using System.Collections.Immutable;
using EarHelp.Clinic.Visits;
using EarHelp.Conversation.Keeping;

namespace EarHelp.Clinic.Keeping;

/// <summary>Keeps what was recorded of visits. Erasing the conversation of a visit, or the one before it, erases all three.</summary>
public interface IVisitStore
{
    /// <summary>Keeps a visit, once it is on the disk; the first one of a conversation stays. False: there is no such conversation.</summary>
    /// <exception cref="StoreFailedException">It is not kept.</exception>
    ValueTask<bool> PutAsync(Visit visit, CancellationToken cancellation);

    ValueTask<Visit?> FindAsync(string conversation, CancellationToken cancellation);

    /// <summary>All visits, the latest first.</summary>
    ValueTask<ImmutableArray<Visit>> AllAsync(CancellationToken cancellation);

    /// <summary>Erases visits before the given instant with their conversations; returns how many conversations.</summary>
    ValueTask<int> SweepVisitsAsync(long beforeUnixMilliseconds, CancellationToken cancellation);
}
