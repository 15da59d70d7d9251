using EarHelp.Understanding.Words;

namespace EarHelp.Understanding.Lexicons;

/// <summary>Finds the word of the edition that somebody meant who slipped by one letter.</summary>
/// <remarks>
/// Only words of at least <see cref="Shortest"/> letters are mended, and never towards a word that has a neighbour one letter
/// away in the edition, or that its authors list as easily confused: a wrong guess is worse than asking. In whole messages the first letter has to
/// be right, and in words below <see cref="ReplacedFrom"/> letters no letter may be another one: "older" is no slip of "solder", nor "agent" of
/// "arent".
/// </remarks>
/// <param name="isOfMessages">True if it stands among all words of a language, and not in a short answer.</param>
sealed class Spelling(bool isOfMessages = false)
{
    const int Shortest = 5, ReplacedFrom = 7;

    readonly HashSet<string> _words = new(StringComparer.Ordinal);
    readonly Dictionary<string, List<string>> _byShortened = new(StringComparer.Ordinal);
    readonly HashSet<string> _confusable = new(StringComparer.Ordinal);

    public void Add(string word)
    {
        if (!_words.Add(word) || word.Length < Shortest || char.IsAsciiDigit(word[0]))
            return;
        foreach (var key in Shortened(word))
        {
            if (!_byShortened.TryGetValue(key, out var sharing))
                _byShortened[key] = sharing = [];
            foreach (var neighbour in sharing)
            {
                if (neighbour == word || !OneLetterOff.Holds(neighbour, word))
                    continue;
                _confusable.Add(neighbour);
                _confusable.Add(word);
            }

            if (!sharing.Contains(word))
                sharing.Add(word);
        }
    }

    public void NeverMendTo(string word) => _confusable.Add(word);

    /// <summary>The word itself if it is one of the edition's, else the only one that is one letter off, else the word.</summary>
    public string Mend(string word)
    {
        if (word.Length < Shortest - 1 || _words.Contains(word))
            return word;
        string? only = null;
        foreach (var key in Shortened(word))
        {
            if (!_byShortened.TryGetValue(key, out var sharing))
                continue;
            foreach (var candidate in sharing)
            {
                if (candidate == only || !OneLetterOff.Holds(candidate, word) || (isOfMessages && !IsSlip(candidate, word)))
                    continue;
                if (only is not null || _confusable.Contains(candidate))
                    return word;
                only = candidate;
            }
        }

        return only ?? word;
    }

    static bool IsSlip(string meant, string written)
    {
        if (meant[0] != written[0] && (meant[0] != written[1] || meant[1] != written[0]))
            return false;
        return meant.Length != written.Length || meant.Length >= ReplacedFrom || Replaced(meant, written) != 1;
    }

    static int Replaced(string one, string other)
    {
        var count = 0;
        for (var i = 0; i < one.Length; i++)
            count += one[i] == other[i] ? 0 : 1;
        return count;
    }

    /// <summary>The word, and the word with each one letter left out: two words one letter apart share one of these.</summary>
    static IEnumerable<string> Shortened(string word)
    {
        yield return word;
        for (var i = 0; i < word.Length; i++)
            yield return word.Remove(i, 1);
    }
}
