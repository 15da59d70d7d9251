using System.Collections.Immutable;

namespace EarHelp.Triage.Diagrams;

/// <summary>Gives each distinct (level, destinations) a number, so that it can end a diagram.</summary>
sealed class WhereLists
{
    readonly Dictionary<string, int> _known = new(StringComparer.Ordinal);
    readonly List<RankedPlaces> _places = [];

    public RankedPlaces this[int number] => _places[number];

    public int Count => _places.Count;

    public int NumberOf(int rank, ImmutableArray<int> destinations)
    {
        var key = $"{rank}:{string.Join(',', destinations)}";
        if (_known.TryGetValue(key, out var number))
            return number;
        _known.Add(key, _places.Count);
        _places.Add(new RankedPlaces(rank, destinations));
        return _places.Count - 1;
    }

    public WhereLists Copy()
    {
        var copy = new WhereLists();
        foreach (var places in _places)
            copy.NumberOf(places.Rank, places.Destinations);
        return copy;
    }
}

/// <param name="Rank">Rank of the level.</param>
/// <param name="Destinations">Indexes in order; an always open one is last.</param>
readonly record struct RankedPlaces(int Rank, ImmutableArray<int> Destinations);
