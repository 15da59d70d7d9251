using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;

namespace EarHelp.Web.Security;

/// <summary>
/// Shows that a form came from a page of ours. It is worked out from the secret in the cookie, which no other site can read, so
/// no key need be kept and every node of a service knows it.
/// </summary>
public static class FormToken
{
    public const string Field = "token";

    public static string For(string secret)
    {
        Span<byte> mac = stackalloc byte[HMACSHA256.HashSizeInBytes];
        HMACSHA256.HashData(Encoding.ASCII.GetBytes(secret), "a form of EarHelp"u8, mac);
        return Base64Url.EncodeToString(mac);
    }

    public static bool IsRight(string secret, string? token) =>
        token is not null
        && CryptographicOperations.FixedTimeEquals(Encoding.ASCII.GetBytes(For(secret)), Encoding.UTF8.GetBytes(token));

    /// <summary>False if the browser itself says that another site sent the request.</summary>
    public static bool IsSameSite(HttpRequest request)
    {
        string? site = request.Headers["Sec-Fetch-Site"];
        if (site is not null)
            return site is "same-origin" or "none";
        string? origin = request.Headers.Origin;

        // A page without a referrer sends the origin "null" with its own forms.
        return origin is null or "null"
            || string.Equals(origin, $"{request.Scheme}://{request.Host}", StringComparison.OrdinalIgnoreCase);
    }
}
