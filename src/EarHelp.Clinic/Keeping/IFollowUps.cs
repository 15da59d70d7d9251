using System.Collections.Immutable;
using EarHelp.Clinic.CheckIns;
using EarHelp.Conversation.Keeping;

namespace EarHelp.Clinic.Keeping;

/// <summary>Keeps how patients are asked after a visit, and what was sent. Erasing a conversation erases its follow-up.</summary>
public interface IFollowUps
{
    /// <summary>Keeps version n if n-1 is the last, once it is on the disk: of several senders one has the claim.</summary>
    /// <returns>False if another version came first, or if the conversation is not there any more.</returns>
    /// <exception cref="StoreFailedException">It is not kept.</exception>
    ValueTask<bool> PutAsync(FollowUp followUp, CancellationToken cancellation);

    ValueTask<FollowUp?> FindAsync(string conversation, CancellationToken cancellation);

    /// <summary>All of them, by their conversations.</summary>
    ValueTask<ImmutableArray<FollowUp>> AllAsync(CancellationToken cancellation);
}
