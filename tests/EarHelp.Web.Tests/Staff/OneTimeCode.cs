using System.Buffers.Binary;
using System.Globalization;
using System.Security.Cryptography;

namespace EarHelp.Web.Tests.Staff;

/// <summary>What an authenticator app shows. Source: RFC 6238 (time steps of 30 seconds) over RFC 4226, with HMAC-SHA-1 and six figures.</summary>
static class OneTimeCode
{
    const string Base32 = "ABCDEFGHIJKLMNOPQRSTUVWXYZ234567";
    const int StepSeconds = 30;

    /// <param name="stepsLater">A person may wait for a later code; a service takes it a little early.</param>
    public static string Of(string key, DateTimeOffset at, int stepsLater = 0) =>
        Of(Bytes(key), (at.ToUnixTimeSeconds() / StepSeconds) + stepsLater, figures: 6);

    public static string Of(byte[] key, long step, int figures)
    {
        Span<byte> counter = stackalloc byte[8];
        BinaryPrimitives.WriteInt64BigEndian(counter, step);
#pragma warning disable CA5350 // RFC 6238 is about SHA-1 here.
        var mac = HMACSHA1.HashData(key, counter);
#pragma warning restore CA5350
        var number = BinaryPrimitives.ReadInt32BigEndian(mac.AsSpan(mac[^1] & 15)) & int.MaxValue;
        return (number % (int)Math.Pow(10, figures)).ToString(CultureInfo.InvariantCulture).PadLeft(figures, '0');
    }

    static byte[] Bytes(string key)
    {
        var bits = string.Concat(key.Where(c => c != ' ').Select(c => Convert.ToString(Base32.IndexOf(c, StringComparison.Ordinal), 2).PadLeft(5, '0')));
        return [.. Enumerable.Range(0, bits.Length / 8).Select(i => Convert.ToByte(bits.Substring(i * 8, 8), 2))];
    }
}
