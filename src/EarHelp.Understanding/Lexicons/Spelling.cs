using EarHelp.Understanding.Words;

namespace EarHelp.Understanding.Lexicons;

/// <summary>Finds the word of the edition that somebody meant who slipped by one letter.</summary>
/// <remarks>
/// Only words of at least <see cref="Shortest"/> letters are mended. A short answer is never mended towards a word that has a neighbour one letter
/// away in the edition, or that its authors list as easily confused: a wrong guess is worse than asking. In whole messages the first letter has to
/// be right, in words below <see cref="ReplacedFrom"/> letters no letter may be another one ("older" is no slip of "solder", nor "agent" of
/// "arent"), and of several words the likelier slip is taken if it leaves only one.
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
        var candidates = Candidates(word);
        if (!isOfMessages)
            return candidates is [var only] && !_confusable.Contains(only) ? only : word;
        var likely = candidates.Where(c => IsSlip(c, word)).GroupBy(c => Kind(c, word)).MinBy(g => g.Key);
        return likely?.Count() == 1 && (likely.Key <= Swapped || !_confusable.Contains(likely.First())) ? likely.First() : word;
    }

    List<string> Candidates(string word)
    {
        var candidates = new List<string>();
        foreach (var key in Shortened(word))
        {
            if (_byShortened.TryGetValue(key, out var sharing))
                candidates.AddRange(sharing.Where(c => !candidates.Contains(c) && OneLetterOff.Holds(c, word)));
        }

        return candidates;
    }

    const int Doubled = 0, Swapped = 1, LeftOut = 2, PutIn = 3, Another = 4;

    /// <summary>Slips from the likeliest on: a letter doubled, two swapped, one left out, one put in, another one.</summary>
    static int Kind(string meant, string written)
    {
        if (meant.Length < written.Length)
            return IsDoubled(meant, written) ? Doubled : PutIn;
        if (meant.Length > written.Length)
            return LeftOut;
        return Replaced(meant, written) == 1 ? Another : Swapped;
    }

    static bool IsDoubled(string meant, string written)
    {
        var at = 0;
        while (at < meant.Length && meant[at] == written[at])
            at++;
        return at > 0 && written[at] == written[at - 1];
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
