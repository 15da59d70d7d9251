using System.Security.Cryptography;
using System.Text;

namespace EarHelp.Web.Security;

/// <summary>
/// What brings a person back to a request from any browser: 160 bits in eight groups, of which only the hash is kept. It is worked
/// out from the secret in the cookie that sent the request, so that this browser can show it again and no other can.
/// </summary>
public static class ReceiptCode
{
    const int Bytes = 20;
    const int BitsALetter = 5;
    const int LettersAGroup = 4;
    const int Letters = Bytes * 8 / BitsALetter;

    /// <summary>Thirty-two letters of which none is taken for another (the alphabet that Douglas Crockford gave his base 32).</summary>
    const string Alphabet = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";

    /// <param name="secret">Of the sender's cookie.</param>
    /// <returns>Without blanks, as it is hashed.</returns>
    public static string For(string secret, string conversation)
    {
        Span<byte> mac = stackalloc byte[HMACSHA256.HashSizeInBytes];
        HMACSHA256.HashData(Encoding.ASCII.GetBytes(secret), Encoding.UTF8.GetBytes("a receipt of EarHelp:" + conversation), mac);
        var code = new char[Letters];
        for (var i = 0; i < Letters; i++)
            code[i] = Alphabet[FiveBits(mac, i * BitsALetter)];
        return new string(code);
    }

    /// <summary>In groups, to be read and written down.</summary>
    public static string InGroups(string code) => string.Join(' ', code.Chunk(LettersAGroup).Select(g => new string(g)));

    /// <summary>A code as a person typed it: small letters, dashes, and letters that look alike are taken for what they are; null if it is none.</summary>
    public static string? Read(string? typed)
    {
        var code = new StringBuilder(Letters);
        foreach (var letter in typed ?? string.Empty)
        {
            if (char.IsWhiteSpace(letter) || letter is '-' or '\u2010' or '\u2011' or '\u2013')
                continue;
            var meant = char.ToUpperInvariant(letter) switch
            {
                'O' => '0',
                'I' or 'L' => '1',
                var other => other,
            };
            if (!Alphabet.Contains(meant, StringComparison.Ordinal) || code.Length == Letters)
                return null;
            code.Append(meant);
        }

        return code.Length == Letters ? code.ToString() : null;
    }

    static int FiveBits(ReadOnlySpan<byte> bytes, int from)
    {
        var two = (bytes[from / 8] << 8) | bytes[(from / 8) + 1];
        return (two >> (16 - BitsALetter - (from % 8))) & 31;
    }
}
