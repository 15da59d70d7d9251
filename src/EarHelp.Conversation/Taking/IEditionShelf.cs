using EarHelp.Conversation.Stepping;
using EarHelp.Conversation.Withdrawing;

namespace EarHelp.Conversation.Taking;

/// <summary>The editions that conversations use: the one that is served now, and earlier ones by their hash.</summary>
public interface IEditionShelf
{
    ServedEdition Current { get; }

    /// <summary>What is not told at this moment.</summary>
    Withdrawals Withdrawn => Withdrawals.None;

    /// <summary>True if conversations of this edition go on with the one that is served now, since something was withdrawn and corrected.</summary>
    bool IsSuperseded(string editionId) => false;

    /// <summary>An edition that was served once, or null.</summary>
    ValueTask<ServedEdition?> FindAsync(string editionId, CancellationToken cancellation);
}
