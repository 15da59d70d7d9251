namespace EarHelp.Understanding.Words;

/// <summary>"Soooo sooore": letters that somebody repeats to be heard.</summary>
static class RepeatedLetters
{
    /// <summary>No word of the language has a letter so often in a row; a fact of English and its neighbours.</summary>
    const int Repeated = 3;

    /// <summary>The word with each letter that is repeated twice, then once in a row; nothing if none is repeated, or nothing else is in it.</summary>
    public static IEnumerable<string> Shorter(string word)
    {
        if (!IsRepeated(word) || word.AsSpan().IndexOfAnyExcept(word[0]) < 0)
            yield break;
        yield return WithAtMost(word, 2);
        yield return WithAtMost(word, 1);
    }

    static bool IsRepeated(string word)
    {
        for (var i = Repeated - 1; i < word.Length; i++)
        {
            if (char.IsAsciiLetter(word[i]) && word.AsSpan(i - Repeated + 1, Repeated).IndexOfAnyExcept(word[i]) < 0)
                return true;
        }

        return false;
    }

    /// <summary>Only letters that stand more than twice in a row are cut, so that "feeeeel" and "eeear" both find their word.</summary>
    static string WithAtMost(string word, int most)
    {
        var kept = new System.Text.StringBuilder(word.Length);
        for (var start = 0; start < word.Length;)
        {
            var end = start + 1;
            while (end < word.Length && word[end] == word[start])
                end++;
            kept.Append(word[start], end - start >= Repeated ? most : end - start);
            start = end;
        }

        return kept.ToString();
    }
}
