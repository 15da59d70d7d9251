using System.Collections.Immutable;

namespace EarHelp.Triage.Diagrams;

/// <summary>
/// Diagrams restricted by what is known of each fact and reduced again: what is left speaks only of facts whose answer can still
/// change the result. Reused for one set of answers after another; not for two threads at once.
/// </summary>
sealed class Restriction
{
    const int Kinds = 4;

    readonly DialogDiagrams _diagrams;
    readonly NodeTable _made;
    readonly int[][] _memo = new int[Kinds][];
    readonly int[][] _stamp = new int[Kinds][];
    readonly Dictionary<(int One, int Other), int>[] _merged = new Dictionary<(int, int), int>[Kinds];
    readonly Dictionary<(int One, int Other), bool> _agree = [];
    readonly ulong[] _known;
    readonly HashSet<int> _seen = [];
    WhereLists _places;
    bool _copiedPlaces;
    bool _hasSets;
    int _round;

    public Restriction(DialogDiagrams diagrams)
    {
        _diagrams = diagrams;
        _made = new NodeTable(diagrams.Arity, diagrams.Nodes.Count);
        _known = new ulong[diagrams.Arity.Length];
        _places = diagrams.Places;
        for (var kind = 0; kind < Kinds; kind++)
        {
            _memo[kind] = [];
            _stamp[kind] = [];
            _merged[kind] = [];
        }
    }

    /// <summary>Begins with new knowledge.</summary>
    /// <param name="known">By fact, the classes that may be true; 0: not asked.</param>
    public void Begin(ReadOnlySpan<ulong> known)
    {
        known.CopyTo(_known);
        _hasSets = false;
        foreach (var mask in known)
            _hasSets |= System.Numerics.BitOperations.PopCount(mask) > 1;
        _made.Clear();
        _agree.Clear();
        foreach (var merged in _merged)
            merged.Clear();
        if (_copiedPlaces)
        {
            _places = _diagrams.Places;
            _copiedPlaces = false;
        }

        _round++;
    }

    public RankedPlaces PlacesOf(int terminal) => _places[Terminal.ValueOf(terminal)];

    /// <summary>What is left of a root.</summary>
    public int Of(int root, Merge merge)
    {
        // With single values only, no members are merged, so that the ways of merging share their results.
        var kind = _hasSets ? (int)merge : 0;
        if (_memo[kind].Length == 0)
        {
            _memo[kind] = new int[_diagrams.Nodes.Count];
            _stamp[kind] = new int[_diagrams.Nodes.Count];
        }

        return Restrict(root, merge, _memo[kind], _stamp[kind]);
    }

    /// <summary>Every end that can still be reached.</summary>
    public void CollectEnds(int root, HashSet<int> ends)
    {
        _seen.Clear();
        Walk(root);

        void Walk(int node)
        {
            if (Terminal.Is(node))
            {
                if (node != Terminal.Impossible)
                    ends.Add(node);
                return;
            }

            if (!_seen.Add(node))
                return;
            foreach (var child in ChildrenOf(node))
                Walk(child);
        }
    }

    /// <summary>Marks every fact of which two possible answers, all else equal, lead to different results.</summary>
    /// <param name="last">Facts after this one are not looked for.</param>
    public void MarkMattering(int root, bool[] matters, int last = int.MaxValue)
    {
        _seen.Clear();
        Mark(root, matters, last, false);
    }

    /// <summary>Marks every fact that the root still speaks of.</summary>
    public void MarkLeft(int root, bool[] matters)
    {
        _seen.Clear();
        Mark(root, matters, int.MaxValue, true);
    }

    /// <summary>The first fact that the root speaks of, or <see cref="int.MaxValue"/>.</summary>
    public int FirstFactOf(int root) => TopOf(root);

    /// <summary>True if every possible completion has the same result.</summary>
    public bool IsSettled(int root)
    {
        if (Terminal.Is(root))
            return true;
        var ends = new HashSet<int>();
        CollectEnds(root, ends);
        return ends.Count <= 1;
    }

    /// <summary>True if every possible completion ends here.</summary>
    public bool IsAlways(int root, int end)
    {
        if (Terminal.Is(root) || _diagrams.Roots.Possible == Terminal.True)
            return root == end;
        var ends = new HashSet<int>();
        CollectEnds(root, ends);
        return ends.Count == 1 && ends.Contains(end);
    }

    void Mark(int node, bool[] matters, int last, bool marksAll)
    {
        if (Terminal.Is(node) || !_seen.Add(node))
            return;
        var variable = VariableOf(node);
        if (variable > last)
            return;
        if (marksAll || matters[variable] || Disagree(ChildrenOf(node)))
            matters[variable] = true;
        var arity = _diagrams.Arity[variable];
        for (var i = 0; i < arity; i++)
            Mark(ChildAt(node, variable, i), matters, last, marksAll);
    }

    bool Disagree(ReadOnlySpan<int> children)
    {
        for (var i = 0; i < children.Length; i++)
        {
            for (var j = i + 1; j < children.Length; j++)
            {
                if (!Agree(children[i], children[j]))
                    return true;
            }
        }

        return false;
    }

    /// <summary>True if the two never give different results for one possible completion.</summary>
    bool Agree(int one, int other)
    {
        if (one == other || one == Terminal.Impossible || other == Terminal.Impossible)
            return true;
        if (Terminal.Is(one) && Terminal.Is(other))
            return false;
        if (_diagrams.Roots.Possible == Terminal.True)
            return false;
        var key = one < other ? (one, other) : (other, one);
        if (_agree.TryGetValue(key, out var known))
            return known;
        var variable = Math.Min(TopOf(one), TopOf(other));
        var agree = true;
        for (var i = 0; i < _diagrams.Arity[variable] && agree; i++)
            agree = Agree(ChildAt(one, variable, i), ChildAt(other, variable, i));
        _agree[key] = agree;
        return agree;
    }

    int Restrict(int node, Merge merge, int[] memo, int[] stamp)
    {
        if (Terminal.Is(node))
            return node;
        if (stamp[node] == _round)
            return memo[node];
        var variable = _diagrams.Nodes.VariableOf(node);
        var arity = _diagrams.Arity[variable];
        var mask = _known[variable];
        int result;
        if (mask != 0)
        {
            result = Terminal.Impossible;
            for (var i = 0; i < arity; i++)
            {
                if ((mask >> i & 1) == 1)
                    result = MergeTwo(result, Restrict(_diagrams.Nodes.ChildOf(node, i), merge, memo, stamp), merge);
            }
        }
        else
        {
            Span<int> children = stackalloc int[arity];
            for (var i = 0; i < arity; i++)
                children[i] = Restrict(_diagrams.Nodes.ChildOf(node, i), merge, memo, stamp);
            result = Make(variable, children);
        }

        memo[node] = result;
        stamp[node] = _round;
        return result;
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
        var variable = Math.Min(TopOf(one), TopOf(other));
        Span<int> children = stackalloc int[_diagrams.Arity[variable]];
        for (var i = 0; i < children.Length; i++)
            children[i] = MergeTwo(ChildAt(one, variable, i), ChildAt(other, variable, i), merge);
        var result = Make(variable, children);
        _merged[(int)merge][key] = result;
        return result;
    }

    int MergeEnds(int one, int other, Merge merge) => merge switch
    {
        Merge.Least => Math.Max(one, other),
        Merge.Every => Math.Max(one, other),
        Merge.Some => Math.Min(one, other),
        _ => MergePlaces(one, other),
    };

    int MergePlaces(int one, int other)
    {
        var (mine, theirs) = (PlacesOf(one), PlacesOf(other));
        if (mine.Rank != theirs.Rank)
            return mine.Rank < theirs.Rank ? one : other;
        if (!_copiedPlaces)
        {
            _places = _places.Copy();
            _copiedPlaces = true;
        }

        ImmutableArray<int> both =
            [.. mine.Destinations.Union(theirs.Destinations).OrderBy(d => _diagrams.IsAlwaysOpen[d]).ThenBy(d => d)];
        return Terminal.Of(_places.NumberOf(mine.Rank, both));
    }

    int Make(int variable, ReadOnlySpan<int> children)
    {
        var same = true;
        for (var i = 1; i < children.Length && same; i++)
            same = children[i] == children[0];
        if (same)
            return children[0];
        var found = _diagrams.Nodes.Find(variable, children);
        if (found < 0)
            found = _made.Find(variable, children);
        return found >= 0 ? found : _made.Add(variable, children);
    }

    bool IsBase(int node) => node < _diagrams.Nodes.Count;

    int VariableOf(int node) => IsBase(node) ? _diagrams.Nodes.VariableOf(node) : _made.VariableOf(node);

    ReadOnlySpan<int> ChildrenOf(int node) => IsBase(node) ? _diagrams.Nodes.ChildrenOf(node) : _made.ChildrenOf(node);

    int TopOf(int node) => Terminal.Is(node) ? int.MaxValue : VariableOf(node);

    int ChildAt(int node, int variable, int valueClass) =>
        Terminal.Is(node) || VariableOf(node) != variable
            ? node
            : IsBase(node) ? _diagrams.Nodes.ChildOf(node, valueClass) : _made.ChildOf(node, valueClass);
}
