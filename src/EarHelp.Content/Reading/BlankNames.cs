using System.Collections.Frozen;

namespace EarHelp.Content.Reading;

/// <summary>The names that a blank in braces may have.</summary>
sealed class BlankNames
{
    readonly FrozenSet<string>? _names;

    BlankNames(FrozenSet<string>? names) => _names = names;

    /// <summary>Filled in from the clinic's settings and by the outcome, in any text.</summary>
    public static BlankNames InAnyText { get; } = new(
        new[]
        {
            "the ear", "clinic", "clinic phone", "clinic text", "clinic email", "clinic relay", "clinic address", "visit minutes", "visit cost", "town", "country",
            "emergency number", "emergency without hearing", "crisis line", "crisis without hearing", "seen by", "answer by",
        }.ToFrozenSet(StringComparer.Ordinal));

    /// <summary>In the words of a level that has no time limit: nobody is to be seen, and nobody to answer, by any moment.</summary>
    public static BlankNames WithoutLimit { get; } = new(
        InAnyText._names!.Except(["seen by", "answer by"]).ToFrozenSet(StringComparer.Ordinal));

    /// <summary>The program that shows a short text knows its blanks.</summary>
    public static BlankNames InInterface { get; } = new(null);

    public IEnumerable<string> All => _names ?? [];

    public bool Knows(string name) => _names is null ? name.Length > 0 : _names.Contains(name);

    public BlankNames And(IEnumerable<string> more) => new((_names ?? []).Concat(more).ToFrozenSet(StringComparer.Ordinal));
}
