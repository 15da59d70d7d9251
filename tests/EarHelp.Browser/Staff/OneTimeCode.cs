using System.Buffers.Binary;
using System.Globalization;
using System.Security.Cryptography;

namespace EarHelp.Browser.Staff;

/// <summary>What an authenticator app shows. Source: RFC 6238 (time steps of 30 seconds) over RFC 4226, with HMAC-SHA-1 and six figures.</summary>
static class OneTimeCode
{
    const string Base32 = "ABCDEFGHIJKLMNOPQRSTUVWXYZ234567";

    /// <param name="steps">From now; a service takes a code a little early or late.</param>
    public static string Of(string key, int steps)
    {
        var bits = string.Concat(key.Where(c => c != ' ').Select(c => Convert.ToString(Base32.IndexOf(c, StringComparison.Ordinal), 2).PadLeft(5, '0')));
        byte[] secret = [.. Enumerable.Range(0, bits.Length / 8).Select(i => Convert.ToByte(bits.Substring(i * 8, 8), 2))];
        Span<byte> counter = stackalloc byte[8];
        BinaryPrimitives.WriteInt64BigEndian(counter, (DateTimeOffset.UtcNow.ToUnixTimeSeconds() / 30) + steps);
#pragma warning disable CA5350 // RFC 6238 is about SHA-1 here.
        var mac = HMACSHA1.HashData(secret, counter);
#pragma warning restore CA5350
        var number = BinaryPrimitives.ReadInt32BigEndian(mac.AsSpan(mac[^1] & 15)) & int.MaxValue;
        return (number % 1_000_000).ToString(CultureInfo.InvariantCulture).PadLeft(6, '0');
    }
}
