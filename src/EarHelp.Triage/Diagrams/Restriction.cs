using System.Collections.Immutable;
using System.Numerics;

namespace EarHelp.Triage.Diagrams;

/// <summary>
/// Diagrams restricted by what is known of each fact and reduced again: what is left speaks only of facts whose answer can still
/// change the result. Reused for one set of answers after another; not for two threads at once.
/// </summary>
sealed class Restriction
{
    /// <summary>Below the last fact with several values that may be true, all ways of merging give the same; they share a memo.</summary>
    const int Shared = 4;

    readonly DialogDiagrams _diagrams;
    readonly NodeTable _base;
    readonly NodesLeft _nodes;
    readonly long[][] _memo = new long[Shared + 1][];
    readonly Dictionary<(int One, int Other), int>[] _merged = new Dictionary<(int, int), int>[Shared];
    readonly FactBits[] _bits;
    readonly ulong[] _known;
    readonly int[] _only;
    readonly Visited _seen = new();
    WhereLists _places;
    FactBits _knownFacts;
    FactBits _sets;
    int _round;

    public Restriction(DialogDiagrams diagrams)
    {
        _diagrams = diagrams;
        _base = diagrams.Nodes;
        _nodes = new NodesLeft(diagrams);
        Mattering = new Mattering(_nodes, diagrams.Arity);
        _bits = [.. Enumerable.Range(0, diagrams.Arity.Length).Select(FactBits.Of)];
        _known = new ulong[diagrams.Arity.Length];
        _only = new int[diagrams.Arity.Length];
        _places = diagrams.Places;
        Array.Fill(_memo, []);
        for (var kind = 0; kind < Shared; kind++)
            _merged[kind] = [];
    }

    /// <summary>Which facts matter to what is left.</summary>
    public Mattering Mattering { get; }

    /// <summary>Begins with new knowledge.</summary>
    /// <param name="known">By fact, the classes that may be true; 0: not asked.</param>
    public void Begin(ReadOnlySpan<ulong> known)
    {
        BeginSure(known);
        _knownFacts = FactBits.None;
        _sets = FactBits.None;
        for (var fact = 0; fact < known.Length; fact++)
        {
            var mask = known[fact];
            if (mask == 0)
                continue;
            _knownFacts |= _bits[fact];
            if (_only[fact] < 0)
                _sets |= _bits[fact];
        }

        _nodes.Clear();
        Mattering.Forget();
        foreach (var merged in _merged)
            merged.Clear();
        _places = _diagrams.Places;
        _round++;
    }

    /// <summary>Begins with new knowledge for <see cref="SureEndOf"/> and <see cref="OnlyClassOf"/> alone.</summary>
    public void BeginSure(ReadOnlySpan<ulong> known)
    {
        known.CopyTo(_known);
        for (var fact = 0; fact < known.Length; fact++)
        {
            var mask = known[fact];
            _only[fact] = BitOperations.IsPow2(mask) ? BitOperations.TrailingZeroCount(mask) : -1;
        }
    }

    /// <summary>The class of the fact's value if only one may be true, else -1.</summary>
    public int OnlyClassOf(int fact) => _only[fact];

    public RankedPlaces PlacesOf(int terminal) => _places[Terminal.ValueOf(terminal)];

    /// <summary>What can still be reached from what is left of a root.</summary>
    public Reach ReachOf(int left) => _nodes.ReachOf(left);

    /// <summary>What is left of a root.</summary>
    public int Of(int root, Merge merge)
    {
        while (!Terminal.Is(root))
        {
            var only = _only[_base.VariableOf(root)];
            if (only < 0)
                return (_base.ReachOf(root).Facts & _knownFacts).IsEmpty ? root : Restrict(root, merge);
            root = _base.ChildOf(root, only);
        }

        return root;
    }

    /// <summary>The end of a root, found by sure answers alone; null if the way leads past a fact that is not sure.</summary>
    public int? SureEndOf(int root)
    {
        while (!Terminal.Is(root))
        {
            var only = _only[_base.VariableOf(root)];
            if (only < 0)
                return null;
            root = _base.ChildOf(root, only);
        }

        return root;
    }

    /// <summary>Every end that can still be reached.</summary>
    public List<int> EndsOf(int left)
    {
        var ends = new List<int>();
        var mask = _nodes.ReachOf(left).PossibleEnds;
        if ((mask >> Reach.OtherEnds) != 0)
        {
            _seen.Clear();
            CollectEnds(left, ends);
            return [.. ends.Distinct()];
        }

        for (; mask != 0; mask &= mask - 1)
            ends.Add(Terminal.Of(BitOperations.TrailingZeroCount(mask)));
        return ends;
    }

    /// <summary>The end that every possible completion has, or null if they differ.</summary>
    public int? EndOf(int left) => Terminal.Is(left) ? left : EndsOf(left) is [var only] ? only : null;

    /// <summary>True if every possible completion has the same result.</summary>
    public bool IsSettled(int left) => EndOf(left) is not null;

    void CollectEnds(int node, List<int> ends)
    {
        if (Terminal.Is(node))
        {
            if (node != Terminal.Impossible)
                ends.Add(node);
            return;
        }

        if (!_seen.Add(node))
            return;
        foreach (var child in _nodes.ChildrenOf(node))
            CollectEnds(child, ends);
    }

    int Restrict(int node, Merge merge)
    {
        var memo = MemoOf(_base.ReachOf(node).Facts, merge);
        var entry = memo[node];
        if (entry >> 32 == _round)
            return unchecked((int)entry);
        var variable = _base.VariableOf(node);
        var mask = _known[variable];
        int result;
        if (mask != 0)
        {
            result = Terminal.Impossible;
            for (; mask != 0; mask &= mask - 1)
                result = MergeTwo(result, Of(_base.ChildOf(node, BitOperations.TrailingZeroCount(mask)), merge), merge);
        }
        else
        {
            Span<int> children = stackalloc int[_diagrams.Arity[variable]];
            for (var i = 0; i < children.Length; i++)
                children[i] = Of(_base.ChildOf(node, i), merge);
            result = _nodes.Make(variable, children);
        }

        memo[node] = ((long)_round << 32) | unchecked((uint)result);
        return result;
    }

    long[] MemoOf(FactBits facts, Merge merge)
    {
        var kind = (facts & _sets).IsEmpty ? Shared : (int)merge;
        if (_memo[kind].Length == 0)
            _memo[kind] = new long[_base.Count];
        return _memo[kind];
    }

    int MergeTwo(int one, int other, Merge merge)
    {
        if (one == other || other == Terminal.Impossible)
            return one;
        if (one == Terminal.Impossible)
            return other;
        if (Terminal.Is(one) && Terminal.Is(other))
            return MergeEnds(one, other, merge);
        var key = one < other ? (one, other) : (other, one);
        if (_merged[(int)merge].TryGetValue(key, out var known))
            return known;
        var variable = Math.Min(_nodes.TopOf(one), _nodes.TopOf(other));
        Span<int> children = stackalloc int[_diagrams.Arity[variable]];
        for (var i = 0; i < children.Length; i++)
            children[i] = MergeTwo(_nodes.ChildAt(one, variable, i), _nodes.ChildAt(other, variable, i), merge);
        var result = _nodes.Make(variable, children);
        _merged[(int)merge][key] = result;
        return result;
    }

    int MergeEnds(int one, int other, Merge merge) => merge switch
    {
        Merge.Least or Merge.Every => Math.Max(one, other),
        Merge.Some => Math.Min(one, other),
        _ => MergePlaces(one, other),
    };

    int MergePlaces(int one, int other)
    {
        var (mine, theirs) = (PlacesOf(one), PlacesOf(other));
        if (mine.Rank != theirs.Rank)
            return mine.Rank < theirs.Rank ? one : other;
        if (ReferenceEquals(_places, _diagrams.Places))
            _places = _places.Copy();
        ImmutableArray<int> both =
            [.. mine.Destinations.Union(theirs.Destinations).OrderBy(d => _diagrams.IsAlwaysOpen[d]).ThenBy(d => d)];
        return Terminal.Of(_places.NumberOf(mine.Rank, both));
    }
}
