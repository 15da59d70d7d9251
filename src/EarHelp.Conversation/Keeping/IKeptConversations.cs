using System.Collections.Immutable;

namespace EarHelp.Conversation.Keeping;

/// <summary>Lists what a store keeps, for a recall.</summary>
public interface IKeptConversations
{
    /// <summary>Identifiers of all conversations, sorted.</summary>
    ValueTask<ImmutableArray<string>> ConversationsAsync(CancellationToken cancellation);
}
