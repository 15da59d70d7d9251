using System.Collections.Immutable;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Texts;

namespace EarHelp.Proof.Comparing;

/// <summary>A text that is not as it was.</summary>
/// <param name="Pieces">Word by word: what stayed, what went, what came.</param>
public sealed record TextChange(string Language, string Name, ImmutableArray<TextPiece> Pieces)
{
    public static ImmutableArray<TextChange> Between(Edition before, Edition after)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(after);
        return
        [
            .. before.Wordings.Keys.Union(after.Wordings.Keys).Order(StringComparer.Ordinal).SelectMany(language =>
                Between(language, TextsOf(before, language), TextsOf(after, language))),
        ];
    }

    static SortedDictionary<string, string> TextsOf(Edition edition, string language) =>
        edition.Wordings.TryGetValue(language, out var wording) ? WordingTexts.Of(wording, edition.Dialog) : new(StringComparer.Ordinal);

    static IEnumerable<TextChange> Between(string language, SortedDictionary<string, string> before, SortedDictionary<string, string> after) =>
        from name in before.Keys.Union(after.Keys).Order(StringComparer.Ordinal)
        let was = before.GetValueOrDefault(name, "")
        let becomes = after.GetValueOrDefault(name, "")
        where was != becomes
        select new TextChange(language, name, TextDiff.Of(was, becomes));
}

/// <summary>A run of words.</summary>
public sealed record TextPiece(TextFate Fate, string Words);

public enum TextFate
{
    Stayed,
    Went,
    Came,
}
