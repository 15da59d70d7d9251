using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using System.Text.Json;

namespace EarHelp.Conversation.Keeping;

/// <summary>Goes through everything that is kept, one conversation at a time. One that is damaged is told and hides no other.</summary>
public static class EveryConversation
{
    /// <param name="read">What is wanted of the turns of one conversation.</param>
    public static async IAsyncEnumerable<ReadConversation<T>> ReadAsync<T>(
        this IKeptConversations kept, ITurnStore turns, Func<ImmutableArray<TurnRecord>, T> read, [EnumeratorCancellation] CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(kept);
        ArgumentNullException.ThrowIfNull(turns);
        ArgumentNullException.ThrowIfNull(read);
        foreach (var conversation in await kept.ConversationsAsync(cancellation).ConfigureAwait(false))
        {
            ReadConversation<T> found;
            try
            {
                found = new ReadConversation<T>(conversation, read(await turns.LoadAsync(conversation, cancellation).ConfigureAwait(false)), IsReadable: true);
            }
            catch (Exception damaged) when (damaged is StoreFailedException or JsonException)
            {
                found = new ReadConversation<T>(conversation, default, IsReadable: false);
            }

            yield return found;
        }
    }
}

/// <param name="Read">Null if it is not readable.</param>
public sealed record ReadConversation<T>(string Conversation, T? Read, bool IsReadable);
