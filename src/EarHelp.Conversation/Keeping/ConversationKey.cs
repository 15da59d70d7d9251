namespace EarHelp.Conversation.Keeping;

/// <summary>What opens a conversation: only the hash of a secret is ever kept.</summary>
/// <param name="Hash">Lower-case hex SHA-256 of a secret of at least 128 random bits.</param>
/// <param name="OneTime">True for a private link, which is swapped for a cookie.</param>
/// <param name="ExpiresUnixMilliseconds">After this it opens nothing; null: as long as the conversation lives.</param>
public sealed record ConversationKey(string Hash, bool OneTime, long? ExpiresUnixMilliseconds);
