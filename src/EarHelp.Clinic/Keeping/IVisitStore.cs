using System.Collections.Immutable;
using EarHelp.Clinic.Visits;
using EarHelp.Conversation.Keeping;

namespace EarHelp.Clinic.Keeping;

/// <summary>Keeps what was recorded of visits. Erasing the conversation of a visit, or the one before it, erases all three.</summary>
public interface IVisitStore
{
    /// <summary>Keeps the first version of a visit, once it is on the disk; what is kept already stays. False: there is no such conversation.</summary>
    /// <exception cref="StoreFailedException">It is not kept.</exception>
    ValueTask<bool> PutAsync(Visit visit, CancellationToken cancellation);

    /// <summary>Keeps version n in the place of version n-1, which it holds, once it is on the disk.</summary>
    /// <returns>True also for the very version that is kept; false if another one came first, or if the visit is not there.</returns>
    /// <exception cref="StoreFailedException">It is not kept.</exception>
    ValueTask<bool> CorrectAsync(Visit visit, CancellationToken cancellation);

    ValueTask<Visit?> FindAsync(string conversation, CancellationToken cancellation);

    /// <summary>All visits, the latest first.</summary>
    ValueTask<ImmutableArray<Visit>> AllAsync(CancellationToken cancellation);

    /// <summary>Erases visits before the given instant with their conversations; returns how many conversations.</summary>
    ValueTask<int> SweepVisitsAsync(long beforeUnixMilliseconds, CancellationToken cancellation);
}
