using System.Collections.Immutable;
using EarHelp.Clinic.Incidents;
using EarHelp.Conversation.Keeping;

namespace EarHelp.Clinic.Keeping;

/// <summary>Keeps incidents that were reported. Erasing a conversation erases its incidents.</summary>
public interface IIncidents
{
    /// <summary>Keeps an incident; the same identifier again changes nothing.</summary>
    /// <returns>False if its conversation is not there any more.</returns>
    /// <exception cref="StoreFailedException">It is not kept.</exception>
    ValueTask<bool> AddAsync(Incident incident, CancellationToken cancellation);

    /// <summary>All of them, the newest first.</summary>
    ValueTask<ImmutableArray<Incident>> AllAsync(CancellationToken cancellation);
}
