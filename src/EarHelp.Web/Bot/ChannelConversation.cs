using System.Security.Cryptography;
using System.Text;
using EarHelp.Conversation.Keeping;

namespace EarHelp.Web.Bot;

/// <summary>
/// A channel's conversation under our own names. The channel vouches for who may speak in it, so its id is no secret; only hashes are kept.
/// </summary>
/// <param name="Id">The same for the same channel and conversation, so that two first messages begin one conversation.</param>
public sealed record ChannelConversation(string Id, ConversationKey Key)
{
    const int IdLetters = 32;

    public static ChannelConversation Of(string channel, string conversation)
    {
        ArgumentNullException.ThrowIfNull(channel);
        // The length keeps "a" + "bc" apart from "ab" + "c".
        var named = FormattableString.Invariant($"{channel.Length}:{channel}{conversation}");
        return new ChannelConversation(
            Hash("conversation " + named)[..IdLetters],
            new ConversationKey(Hash(named), OneTime: false, ExpiresUnixMilliseconds: null));
    }

    static string Hash(string text) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)));
}
