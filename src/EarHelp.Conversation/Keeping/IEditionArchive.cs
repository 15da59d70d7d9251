namespace EarHelp.Conversation.Keeping;

/// <summary>Keeps the sources of every edition that was ever served, by its hash.</summary>
public interface IEditionArchive
{
    /// <summary>Keeps an edition; keeping it again changes nothing.</summary>
    /// <param name="editionId">Lower-case hex SHA-256 of the sources.</param>
    /// <param name="sources">The packed sources; opaque to a store.</param>
    ValueTask KeepAsync(string editionId, ReadOnlyMemory<byte> sources, CancellationToken cancellation);

    /// <summary>The packed sources, or null if that edition was never served here.</summary>
    ValueTask<ReadOnlyMemory<byte>?> FindAsync(string editionId, CancellationToken cancellation);
}
