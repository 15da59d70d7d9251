namespace EarHelp.Triage.Diagrams;

/// <summary>Finds the facts of which two possible answers, all else equal, lead to different results.</summary>
sealed class Mattering(NodesLeft nodes, int[] arity)
{
    readonly Visited _seen = new();
    readonly Dictionary<(int One, int Other), bool> _agree = [];
    FactBits _wanted;

    public static FactBits AnyFact => FactBits.All;

    /// <summary>Forgets what it found, since other nodes are left.</summary>
    public void Forget() => _agree.Clear();

    /// <summary>Marks those of the wanted facts that matter to any of the roots; others may be marked besides, if they matter.</summary>
    public void Mark(List<int> roots, FactBits wanted, bool[] matters)
    {
        _seen.Clear();
        _wanted = wanted;
        foreach (var root in roots)
            Mark(root, matters);
    }

    /// <summary>Marks every fact that the root still speaks of.</summary>
    public void MarkLeft(int root, bool[] matters)
    {
        _seen.Clear();
        Walk(root);

        void Walk(int node)
        {
            if (Terminal.Is(node) || !_seen.Add(node))
                return;
            matters[nodes.VariableOf(node)] = true;
            foreach (var child in nodes.ChildrenOf(node))
                Walk(child);
        }
    }

    void Mark(int node, bool[] matters)
    {
        if (Terminal.Is(node) || (nodes.ReachOf(node).Facts & _wanted).IsEmpty || !_seen.Add(node))
            return;
        var variable = nodes.VariableOf(node);
        var bit = FactBits.Of(variable);
        if (!(bit & _wanted).IsEmpty && !matters[variable] && Disagree(nodes.ChildrenOf(node)))
        {
            matters[variable] = true;
            if (variable < FactBits.LastBit)
                _wanted = _wanted.Without(bit);
        }

        for (var i = 0; i < arity[variable]; i++)
            Mark(nodes.ChildAt(node, variable, i), matters);
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
        if (nodes.ReachOf(one).IsAlwaysPossible && nodes.ReachOf(other).IsAlwaysPossible)
            return false;
        var key = one < other ? (one, other) : (other, one);
        if (_agree.TryGetValue(key, out var known))
            return known;
        var variable = Math.Min(nodes.TopOf(one), nodes.TopOf(other));
        var agree = true;
        for (var i = 0; i < arity[variable] && agree; i++)
            agree = Agree(nodes.ChildAt(one, variable, i), nodes.ChildAt(other, variable, i));
        _agree[key] = agree;
        return agree;
    }
}
