using System.Collections.Immutable;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace EarHelp.Content.Dialogs;

/// <summary>What conditions may speak of.</summary>
sealed class FactScope(ImmutableArray<Fact> facts)
{
    readonly Dictionary<string, (FactReference Of, FactValues Values)> _known =
        facts.ToDictionary(f => f.DecidingId, f => (new FactReference(false, f.Index), f.Values), StringComparer.Ordinal);

    readonly HashSet<string> _used = new(StringComparer.Ordinal);

    public ImmutableArray<Fact> Facts => facts;

    public IEnumerable<string> Names => _known.Keys;

    public bool Knows(string name) => _known.ContainsKey(name);

    /// <summary>A date that conditions may not speak of, because a number is counted from it.</summary>
    public Fact? FindDate(string name) => facts.FirstOrDefault(f => f.Counted is not null && f.Id == name);

    public void Add(string namedFact, int index, FactValues values) => _known.TryAdd(namedFact, (new FactReference(true, index), values));

    public void Renumber(string namedFact, int index) => _known[namedFact] = (new FactReference(true, index), _known[namedFact].Values);

    /// <summary>Marks the fact as used.</summary>
    public (FactReference Of, FactValues Values)? Use(string name)
    {
        if (!_known.TryGetValue(name, out var found))
            return null;
        _used.Add(name);
        return found;
    }

    public bool IsUsed(string name) => _used.Contains(name);
}
