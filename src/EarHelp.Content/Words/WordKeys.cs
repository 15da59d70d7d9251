using System.Collections.Frozen;
using EarHelp.Content.Problems;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Words;

/// <summary>Gathers the words of one kind by their names, and holds them against the names that need words.</summary>
sealed class WordKeys<T>(string what, string language, ProblemList problems)
{
    readonly Dictionary<string, (T Words, SourceSpot Spot)> _given = new(StringComparer.Ordinal);

    public void Add(string name, SourceSpot spot, Func<T> read)
    {
        if (_given.TryGetValue(name, out var first))
            problems.Add(Codes.DoubledName, spot, $"The words of the {what} \"{name}\" are given twice; first at {first.Spot}.", "Keep one of them.");
        else
            _given[name] = (read(), spot);
    }

    public bool Has(string name) => _given.ContainsKey(name);

    /// <summary>Every needed name has words, and no words belong to a name that does not exist.</summary>
    /// <param name="possible">Names that may have words without needing them.</param>
    public void Hold(IReadOnlyCollection<(string Name, SourceSpot Spot)> needed, IReadOnlyCollection<string>? possible = null)
    {
        foreach (var (name, spot) in needed.Where(n => !_given.ContainsKey(n.Name)))
            problems.Add(Codes.MissingWords, spot, $"There are no words in \"{language}\" for the {what} \"{name}\".", $"Add a section \"## {name}\" to the words, or correct the name there.");
        var known = needed.Select(n => n.Name).Concat(possible ?? []).ToHashSet(StringComparer.Ordinal);
        foreach (var (name, given) in _given.Where(g => !known.Contains(g.Key)))
            problems.AddUnknown(Codes.WordsForNothing, given.Spot, what, name, known);
    }

    public FrozenDictionary<string, T> ToFrozen() => _given.ToFrozenDictionary(g => g.Key, g => g.Value.Words, StringComparer.Ordinal);
}
