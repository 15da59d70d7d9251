using System.Text.RegularExpressions;
using EarHelp.Content.Reading;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Words;

/// <summary>Finds where words stand at or below a spot.</summary>
sealed class WordSpots(SourceText source, SourceSpot from)
{
    /// <summary>The spot of the last of some words that follow each other, marks and line ends between them; else of the last alone.</summary>
    public SourceSpot Find(string words)
    {
        var start = from.Line < 1 || from.Line > source.LineCount ? 0 : source.StartOf(from.Line - 1);
        var parts = words.Split(' ').Select(Regex.Escape).ToArray();
        var together = string.Join(@"[\s*_>-]+", parts.SkipLast(1).Append($"(?<last>{parts[^1]})"));
        foreach (var pattern in new[] { together, $"(?<last>{parts[^1]})" })
        {
            var match = Regex.Match(source.Text[start..], pattern, RegexOptions.IgnoreCase | RegexOptions.CultureInvariant);
            if (match.Success)
                return source.SpotAt(start + match.Groups["last"].Index);
        }

        return from;
    }
}
