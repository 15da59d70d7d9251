using System.Collections.Immutable;
using EarHelp.Clinic.Callers;
using EarHelp.Conversation.Keeping;

namespace EarHelp.Clinic.Keeping;

/// <summary>Keeps for whom the desk holds a conversation. Erasing a conversation, or sweeping an unfinished one, erases its caller.</summary>
public interface ICallers
{
    /// <summary>Keeps a caller, in the place of what was kept for the same conversation.</summary>
    /// <returns>False if the conversation is not there any more.</returns>
    /// <exception cref="StoreFailedException">It is not kept.</exception>
    ValueTask<bool> PutAsync(Caller caller, CancellationToken cancellation);

    ValueTask<Caller?> FindAsync(string conversation, CancellationToken cancellation);

    /// <summary>All of them, the newest first.</summary>
    ValueTask<ImmutableArray<Caller>> AllAsync(CancellationToken cancellation);
}
