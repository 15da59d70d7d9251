using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;

namespace EarHelp.Web.Security;

/// <summary>What opens a conversation: 256 random bits, of which only the hash is ever kept.</summary>
public static class Secret
{
    const int Bytes = 32;

    /// <summary>Length of a secret as it is written: base64url without padding.</summary>
    public static int Length { get; } = Base64Url.GetEncodedLength(Bytes);

    public static string New()
    {
        Span<byte> random = stackalloc byte[Bytes];
        RandomNumberGenerator.Fill(random);
        return Base64Url.EncodeToString(random);
    }

    /// <summary>
    /// Names a conversation; no secret. It begins with the time, in milliseconds (version 7 of RFC 9562), so that what is written together
    /// stands together in the store: an index that is touched at places that chance gives costs several pages a turn.
    /// </summary>
    public static string NewConversation(DateTimeOffset now) => Guid.CreateVersion7(now).ToString("N");

    /// <summary>An identifier that is no secret, of a turn or an account.</summary>
    public static string NewIdentifier()
    {
        Span<byte> random = stackalloc byte[16];
        RandomNumberGenerator.Fill(random);
        return Base64Url.EncodeToString(random);
    }

    /// <summary>False for anything that this service cannot have made.</summary>
    public static bool IsWellFormed(string? secret) =>
        secret is not null && secret.Length == Length && Base64Url.IsValid(secret);

    /// <summary>Lower-case hex SHA-256, as the store keeps it.</summary>
    public static string HashOf(string secret)
    {
        Span<byte> hash = stackalloc byte[SHA256.HashSizeInBytes];
        SHA256.HashData(Encoding.ASCII.GetBytes(secret), hash);
        return Convert.ToHexStringLower(hash);
    }
}
