using System.Collections.Immutable;
using EarHelp.Content.Reading;

namespace EarHelp.Content.Words;

/// <summary>How people say something: phrases with commas between, in small letters, with straight apostrophes.</summary>
static class SaidAs
{
    public static ImmutableArray<string> Read(PageCell cell) => cell.IsNothing ? [] : Read(cell.Text);

    public static ImmutableArray<string> Read(string phrases) =>
    [
        .. phrases.Split(',').Select(p => string.Join(' ', p.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)))
            .Select(p => p.Replace('\u2019', '\'').Replace('\u2018', '\'').ToLowerInvariant())
            .Where(p => p.Length > 0).Distinct(StringComparer.Ordinal),
    ];
}
