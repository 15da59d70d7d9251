using EarHelp.Content.ReadingLevels;
using EarHelp.Triage.Editions;

namespace EarHelp.Cli.Describing;

/// <summary>The texts of an edition that are the hardest to read, each with where it stands.</summary>
public static class HardestTexts
{
    const int Told = 5, WordsAtLeast = 40;

    /// <summary>One line a text, the hardest first; short texts are left out, because a formula says nothing of them.</summary>
    public static IEnumerable<string> Of(Edition edition)
    {
        ArgumentNullException.ThrowIfNull(edition);
        return edition.Wordings.OrderBy(w => w.Key, StringComparer.Ordinal)
            .SelectMany(w => ReadText.AllOf(w.Value).Where(t => t.Counts.Words >= WordsAtLeast).OrderByDescending(t => t.Grade).Take(Told))
            .Select(t => FormattableString.Invariant(
                $"{t.Spot.File}:{t.Spot.Line}: grade {t.Grade:0.0}, ease {ReadingScores.FleschReadingEase(t.Counts):0}, longest sentence {t.Counts.LongestSentence} words: {t.Name}"));
    }
}
