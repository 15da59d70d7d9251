using System.Collections.Frozen;
using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Words;

/// <summary>Gathers the words of one kind by their names, and holds them against the names that need words.</summary>
sealed class WordKeys<T>(string what, string language, ProblemList problems, Func<string, string> asWritten)
{
    /// <summary>Words that stand below a heading of their own.</summary>
    public WordKeys(string what, string language, ProblemList problems)
        : this(what, language, problems, name => $"a section \"## {name}\"")
    {
    }

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
        ReportMissing([.. needed]);
        var known = needed.Select(n => n.Name).Concat(possible ?? []).ToHashSet(StringComparer.Ordinal);
        foreach (var (name, given) in _given.Where(g => !known.Contains(g.Key)))
            problems.AddUnknown(Codes.WordsForNothing, given.Spot, what, name, known);
    }

    // The words follow the order of the dialog, so the place is above the next that has words, or below the one before.
    void ReportMissing(ImmutableArray<(string Name, SourceSpot Spot)> needed)
    {
        for (var i = 0; i < needed.Length; i++)
        {
            var (name, defined) = needed[i];
            if (_given.ContainsKey(name))
                continue;
            var next = needed.Skip(i + 1).Select(n => n.Name).FirstOrDefault(_given.ContainsKey);
            var before = needed.Take(i).Select(n => n.Name).LastOrDefault(_given.ContainsKey);
            string[] places = [.. new[] { ("above", next), ("below", before) }.Where(p => p.Item2 is not null).Select(p => $"{p.Item1} \"{p.Item2}\" ({_given[p.Item2!].Spot})")];
            problems.Add(Codes.MissingWords, (next ?? before) is { } near ? _given[near].Spot : defined,
                $"There are no words in \"{language}\" for the {what} \"{name}\", which stands at {defined}.",
                $"Add {asWritten(name)}{(places.Length == 0 ? "" : " ")}{string.Join(" or ", places)}, or correct the name there.");
        }
    }

    public FrozenDictionary<string, T> ToFrozen() => _given.ToFrozenDictionary(g => g.Key, g => g.Value.Words, StringComparer.Ordinal);
}
