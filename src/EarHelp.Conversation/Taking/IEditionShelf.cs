using EarHelp.Conversation.Stepping;

namespace EarHelp.Conversation.Taking;

/// <summary>The editions that conversations use: the one that is served now, and earlier ones by their hash.</summary>
public interface IEditionShelf
{
    ServedEdition Current { get; }

    /// <summary>An edition that was served once, or null.</summary>
    ValueTask<ServedEdition?> FindAsync(string editionId, CancellationToken cancellation);
}
