using System.Collections.Immutable;
using EarHelp.Triage.Editions;
using EarHelp.Understanding.Words;

namespace EarHelp.Conversation.Stepping;

/// <summary>Finds the countries of an edition's list of emergency numbers in a message.</summary>
static class CountriesNamed
{
    /// <summary>Each once, by whole words.</summary>
    public static ImmutableArray<string> In(Edition edition, string text)
    {
        var countries = edition.EmergencyNumbers.Countries;
        if (countries.IsEmpty)
            return [];
        var words = WordList.Of(text);
        return [.. countries.Select(c => c.Country).Where(c => Holds(words, WordList.Of(c))).Distinct(StringComparer.Ordinal)];
    }

    static bool Holds(ImmutableArray<Word> words, ImmutableArray<Word> phrase)
    {
        for (var at = 0; at + phrase.Length <= words.Length; at++)
        {
            var same = 0;
            while (same < phrase.Length && string.Equals(words[at + same].Text, phrase[same].Text, StringComparison.Ordinal))
                same++;
            if (same == phrase.Length)
                return same > 0;
        }

        return false;
    }
}
