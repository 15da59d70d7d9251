using System.Collections.Immutable;
using EarHelp.Understanding.Lexicons;
using EarHelp.Understanding.Words;

namespace EarHelp.Understanding.Readings;

/// <summary>Where a message denies something.</summary>
/// <remarks>
/// A denial reaches a phrase only over words that the edition lists for it, so that anything unforeseen between them leaves the phrase
/// said: to take a danger sign for denied would be worse than to ask about one that was.
/// </remarks>
sealed class Denials
{
    /// <summary>How many words before and after a phrase are looked at, within its clause.</summary>
    const int WordsLookedAt = 12;

    readonly ImmutableArray<Word> _words;
    readonly bool[] _ends, _goesOn, _joins, _undoes;

    /// <summary>Length of the longest phrase of the edition that ends at a word; 0: none.</summary>
    readonly int[] _phraseEndingAt;

    public Denials(Lexicon lexicon, ImmutableArray<Word> words, string[] mended)
    {
        _words = words;
        (_ends, _goesOn, _joins, _undoes) = (new bool[mended.Length], new bool[mended.Length], new bool[mended.Length], new bool[mended.Length]);
        _phraseEndingAt = new int[mended.Length];
        for (var at = 0; at < mended.Length; at++)
        {
            var first = at;
            lexicon.Phrases.Match(mended, at, (length, meanings) =>
            {
                foreach (var meaning in meanings)
                    Note(meaning, first, length);
            });
        }
    }

    /// <summary>True if the words from first to last are denied.</summary>
    public bool Reach(int first, int last)
    {
        for (int i = first, left = WordsLookedAt; i > 0 && left > 0 && !_words[i].BeginsClause; left--)
        {
            if (_ends[i - 1])
                return !IsUndoneAfter(last);
            if (_joins[i - 1] && i > 1 && !_words[i - 1].BeginsClause && _phraseEndingAt[i - 2] is > 0 and var joined && IsOneClause(i - 1 - joined, i - 2))
                i -= 1 + joined;
            else if (_goesOn[i - 1])
                i--;
            else
                return false;
        }

        return false;
    }

    void Note(Meaning meaning, int first, int length)
    {
        var last = first + length - 1;
        switch (meaning)
        {
            case Meaning.OfDenial:
                _ends[last] = true;
                break;
            case Meaning.OfDenialGoingOn:
                _goesOn[last] = true;
                break;
            case Meaning.OfDenialJoining:
                _joins[last] = true;
                break;
            case Meaning.OfDenialUndone:
                _undoes[first] = true;
                break;
            case Meaning.OfSignpost or Meaning.OfValue:
                _phraseEndingAt[last] = Math.Max(_phraseEndingAt[last], length);
                break;
        }
    }

    bool IsUndoneAfter(int last)
    {
        for (var i = last + 1; i < _words.Length && i <= last + WordsLookedAt && !_words[i].BeginsClause; i++)
        {
            if (_undoes[i])
                return true;
        }

        return false;
    }

    bool IsOneClause(int first, int last)
    {
        for (var i = first + 1; i <= last; i++)
        {
            if (_words[i].BeginsClause)
                return false;
        }

        return true;
    }
}
