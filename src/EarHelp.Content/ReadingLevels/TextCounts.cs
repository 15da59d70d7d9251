using System.Text.RegularExpressions;

namespace EarHelp.Content.ReadingLevels;

/// <summary>What of a text is counted.</summary>
/// <param name="Letters">Letters and digits of all words.</param>
/// <param name="Polysyllables">Words of three syllables or more.</param>
/// <param name="LongestSentence">In words; a colon or a semicolon ends it too, because what follows is read by itself.</param>
public readonly partial record struct TextCounts(int Sentences, int Words, int Letters, int Syllables, int Polysyllables, int LongestSentence)
{
    const int ManySyllables = 3;

    /// <param name="lines">Paragraphs, headings and list entries: each ends a sentence.</param>
    public static TextCounts Of(IEnumerable<string> lines)
    {
        ArgumentNullException.ThrowIfNull(lines);
        var counts = new TextCounts();
        foreach (var sentence in lines.SelectMany(l => SentenceEnd().Split(l)))
        {
            var words = WordsOf(sentence);
            if (words.Count == 0)
                continue;
            var syllables = words.Select(ReadingLevels.Syllables.Count).ToList();
            counts = new TextCounts(
                counts.Sentences + 1,
                counts.Words + words.Count,
                counts.Letters + words.Sum(w => w.Count(char.IsLetterOrDigit)),
                counts.Syllables + syllables.Sum(),
                counts.Polysyllables + syllables.Count(s => s >= ManySyllables),
                Math.Max(counts.LongestSentence, sentence.AsSpan().ContainsAny(':', ';') ? ClauseEnd().Split(sentence).Max(c => WordsOf(c).Count) : words.Count));
        }

        return counts;
    }

    public static IReadOnlyList<string> WordsOf(string sentence) => [.. Word().Matches(sentence).Select(m => m.Value)];

    [GeneratedRegex(@"(?<=[.!?][""”)]?)\s+")]
    private static partial Regex SentenceEnd();

    [GeneratedRegex(@"(?<=[:;])\s+")]
    private static partial Regex ClauseEnd();

    [GeneratedRegex(@"[\p{L}\p{N}]+(?:['’.,][\p{L}\p{N}]+)*")]
    private static partial Regex Word();
}
