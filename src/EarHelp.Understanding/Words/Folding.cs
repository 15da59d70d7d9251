namespace EarHelp.Understanding.Words;

/// <summary>Brings a character to the form in which words are compared: compatibility forms, quotes, dashes, blanks, case.</summary>
/// <remarks>
/// Done by hand and character by character, because the program runs without the platform's Unicode tables and because the
/// place of every character in the person's own text is kept. Accents are left out on both sides of a comparison.
/// </remarks>
static class Folding
{
    const string PlainOfLatin1 = "aaaaaaaceeeeiiiidnooooo×ouuuuyþsaaaaaaaceeeeiiiidnooooo÷ouuuuyþy";

    /// <summary>The folded character, or null if it has no place in a comparison (combining marks, soft hyphens, joiners).</summary>
    public static char? Fold(char c)
    {
        if (c < '\u0080')
            return char.ToLowerInvariant(c);
        if (c is (>= '\u0300' and <= '\u036f') or '\u00ad' or (>= '\u200b' and <= '\u200d') or '\ufeff' or (>= '\ufe00' and <= '\ufe0f'))
            return null;
        return c switch
        {
            '\u00a0' or '\u202f' or '\u3000' or (>= '\u2000' and <= '\u200a') => ' ',
            '\u2018' or '\u2019' or '\u201a' or '\u201b' or '\u2032' or '\u02bc' or '\u00b4' => '\'',
            '\u201c' or '\u201d' or '\u201e' or '\u201f' or '\u2033' => '"',
            (>= '\u2010' and <= '\u2015') or '\u2212' => '-',
            '\u00b2' or '\u00b3' => (char)('2' + (c - '\u00b2')),
            '\u00b9' => '1',
            >= '\u00c0' and <= '\u00ff' => PlainOfLatin1[c - '\u00c0'],
            >= '\uff01' and <= '\uff5e' => char.ToLowerInvariant((char)(c - 0xfee0)),
            _ => char.ToLowerInvariant(c),
        };
    }
}
