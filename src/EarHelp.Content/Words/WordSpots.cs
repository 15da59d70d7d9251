using EarHelp.Content.Reading;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Words;

/// <summary>Finds where a word stands at or below a spot.</summary>
sealed class WordSpots(SourceText source, SourceSpot from)
{
    public SourceSpot Find(string word)
    {
        var start = from.Line < 1 || from.Line > source.LineCount ? 0 : source.StartOf(from.Line - 1);
        var at = source.Text.IndexOf(word, start, StringComparison.OrdinalIgnoreCase);
        return at < 0 ? from : source.SpotAt(at);
    }
}
