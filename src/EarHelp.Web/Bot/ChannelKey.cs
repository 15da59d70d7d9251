using System.Security.Cryptography;
using System.Text;
using EarHelp.Conversation.Keeping;

namespace EarHelp.Web.Bot;

/// <summary>What opens the conversation of a channel: the channel vouches for its own conversation id, and only the hash is kept.</summary>
static class ChannelKey
{
    public static string HashOf(string channel, string conversation)
    {
        // The length keeps "a" + "bc" apart from "ab" + "c".
        var named = FormattableString.Invariant($"{channel.Length}:{channel}{conversation}");
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(named)));
    }

    public static ConversationKey Of(string channel, string conversation) => new(HashOf(channel, conversation), OneTime: false, ExpiresUnixMilliseconds: null);
}
