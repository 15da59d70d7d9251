using System.Collections.Immutable;

namespace EarHelp.Triage.Diagrams;

/// <summary>
/// Yes/no roots, found by the first fact they test and the class of its value: for most patients most rows fall at their first fact.
/// </summary>
sealed class RootGroup
{
    readonly ImmutableArray<int> _roots;
    readonly ImmutableArray<Merge> _merges;
    readonly int[] _ofNoFact;
    readonly ByFact[] _byFact;

    public RootGroup(NodeTable nodes, int[] arity, ImmutableArray<int> roots, Func<int, Merge> mergeOf)
    {
        _roots = roots;
        var all = Enumerable.Range(0, roots.Length).ToArray();
        _merges = [.. all.Select(mergeOf)];
        _ofNoFact = [.. all.Where(i => Terminal.Is(roots[i]) && roots[i] != Terminal.False)];
        _byFact =
        [
            .. all.Where(i => !Terminal.Is(roots[i])).GroupBy(i => nodes.VariableOf(roots[i])).Select(g => new ByFact(
                g.Key,
                [.. g],
                [.. Enumerable.Range(0, arity[g.Key]).Select(c => g.Where(i => nodes.ChildOf(roots[i], c) != Terminal.False).ToArray())])),
        ];
    }

    /// <summary>The roots in their order.</summary>
    public ImmutableArray<int> Each => _roots;

    /// <summary>What is left of each root, and how certain it is.</summary>
    /// <param name="open">Gets what is left where that is more than an end; null: not wanted.</param>
    public Certainty[] Read(Restriction restriction, List<int>? open)
    {
        var read = new Certainty[_roots.Length];
        foreach (var i in _ofNoFact)
            read[i] = ReadOne(i, restriction, open);
        foreach (var group in _byFact)
        {
            var only = restriction.OnlyClassOf(group.Fact);
            foreach (var i in only < 0 ? group.All : group.Live[only])
                read[i] = ReadOne(i, restriction, open);
        }

        return read;
    }

    /// <summary>Adds what is left of each root where that is more than an end.</summary>
    public void AddOpen(Restriction restriction, List<int> open)
    {
        foreach (var group in _byFact)
        {
            var only = restriction.OnlyClassOf(group.Fact);
            foreach (var i in only < 0 ? group.All : group.Live[only])
            {
                var left = restriction.Of(_roots[i], _merges[i]);
                if (!Terminal.Is(left))
                    open.Add(left);
            }
        }
    }

    Certainty ReadOne(int index, Restriction restriction, List<int>? open)
    {
        var left = restriction.Of(_roots[index], _merges[index]);
        if (Terminal.Is(left))
            return left == Terminal.True ? Certainty.Certain : Certainty.No;
        open?.Add(left);
        var ends = restriction.ReachOf(left).PossibleEnds;
        return (ends & 2) == 0 ? Certainty.No : (ends & 1) == 0 ? Certainty.Certain : Certainty.Possible;
    }

    /// <param name="Live">By class: those that the fact's value does not rule out.</param>
    sealed record ByFact(int Fact, int[] All, int[][] Live);
}

/// <summary>What every possible completion says of a yes/no decision.</summary>
enum Certainty : byte
{
    No,
    Possible,
    Certain,
}
