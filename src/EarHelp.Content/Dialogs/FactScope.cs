using System.Collections.Immutable;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace EarHelp.Content.Dialogs;

/// <summary>What conditions may speak of.</summary>
/// <param name="damaged">Facts whose values could not be read: what is said of them is not held against their values.</param>
sealed class FactScope(ImmutableArray<Fact> facts, IReadOnlySet<string> damaged)
{
    readonly Dictionary<string, (FactReference Of, FactValues Values)> _known =
        facts.ToDictionary(f => f.DecidingId, f => (new FactReference(false, f.Index), f.Values), StringComparer.Ordinal);

    readonly HashSet<string> _used = new(StringComparer.Ordinal);

    public ImmutableArray<Fact> Facts => facts;

    public IEnumerable<string> Names => _known.Keys;

    /// <summary>A date that conditions may not speak of, because a number is counted from it.</summary>
    public Fact? FindDate(string name) => facts.FirstOrDefault(f => f.Counted is not null && f.Id == name);

    public void Add(string namedFact, int index, FactValues values) => _known.TryAdd(namedFact, (new FactReference(true, index), values));

    public void Renumber(string namedFact, int index) => _known[namedFact] = (new FactReference(true, index), _known[namedFact].Values);

    public (FactReference Of, FactValues Values)? Find(string name) => _known.TryGetValue(name, out var found) ? found : null;

    public void MarkUsed(string name) => _used.Add(name);

    public bool IsDamaged(string name) => damaged.Contains(name);

    public bool IsUsed(string name) => _used.Contains(name);
}
