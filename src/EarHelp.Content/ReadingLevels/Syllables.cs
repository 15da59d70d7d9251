using System.Collections.Concurrent;
using System.Text.RegularExpressions;

namespace EarHelp.Content.ReadingLevels;

/// <summary>Counts the syllables of an English word by its spelling: runs of vowels, less the silent ones, more where two are said apart.</summary>
static partial class Syllables
{
    /// <summary>The same words come again and again: each is counted once.</summary>
    static readonly ConcurrentDictionary<string, int> Counted = new(StringComparer.Ordinal);

    /// <summary>At least one, also for a figure.</summary>
    public static int Count(string word) => Counted.GetOrAdd(word, CountAnew);

    static int CountAnew(string word)
    {
        var letters = NoLetter().Replace(word.ToLowerInvariant().Replace('’', '\'').Split('\'')[0], "");
        var count = Vowels().Count(letters) - Silent().Count(letters) + Apart().Count(letters);
        return Math.Max(1, count);
    }

    [GeneratedRegex("[^a-z]")]
    private static partial Regex NoLetter();

    [GeneratedRegex("[aeiouy]+")]
    private static partial Regex Vowels();

    /// <summary>The e at an end or before an ending, but not of "table", "wanted" or "glasses".</summary>
    [GeneratedRegex(
        "(?<=[aeiouy].*)(?:(?<=[^aeiouy])e$(?<![^aeiouyl]le)|(?<=[^aeiouytd])ed$|(?<=[^aeiouysxzcg])es$(?<![sc]hes)(?<![^aeiouyl]les)|(?<=[^aeiouy])ely$)"
        + "|(?<=[^aeiouy])e(?=ful|less|ment|ness|where|thing)|(?<=^som)e(?=.)|(?<=^ever)y(?=where)|(?<=^ev)e(?=r(?:y|ybody|ywhere)$)|(?<=^peo)(?=ple$)|(?<=^any?on)e")]
    private static partial Regex Silent();

    /// <summary>Two vowels in a row that are said apart, as in "idea", "being", "previous".</summary>
    [GeneratedRegex("ying|[aeiou]ing|isms?$|iet|[^cstg]ia|[^cstgx]io|[^g]ua[^r]|iu|eo[^u](?<!^peop)|rea(?=ct)|lier$|sier$|idea")]
    private static partial Regex Apart();
}
