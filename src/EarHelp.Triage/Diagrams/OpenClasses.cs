namespace EarHelp.Triage.Diagrams;

/// <summary>Which classes of each fact leave a yes/no root open, whatever the other answers are.</summary>
sealed class OpenClasses(NodeTable nodes, int[] arity)
{
    /// <summary>A root with more nodes is taken to be open for every answer: to look closer would cost more than to walk it.</summary>
    const int MostNodes = 2_000;

    readonly ulong[] _open = new ulong[arity.Length];
    readonly int[] _passed = new int[arity.Length + 1];
    readonly Visited _seen = new();
    int _left;

    /// <summary>By fact a bit for each class with which the root can be true. Valid until the next call.</summary>
    public ReadOnlySpan<ulong> Of(int root)
    {
        Array.Clear(_open);
        Array.Clear(_passed);
        _seen.Clear();
        _left = MostNodes;
        Pass(-1, root);
        if (!Collect(root))
            Pass(-1, Terminal.True);
        var passing = 0;
        for (var fact = 0; fact < arity.Length; fact++)
        {
            passing += _passed[fact];
            if (passing > 0)
                _open[fact] = ulong.MaxValue >> (64 - arity[fact]);
        }

        return _open;
    }

    /// <returns>False if there are too many nodes.</returns>
    bool Collect(int node)
    {
        if (Terminal.Is(node) || !_seen.Add(node))
            return true;
        if (--_left < 0)
            return false;
        var fact = nodes.VariableOf(node);
        var children = nodes.ChildrenOf(node);
        for (var c = 0; c < children.Length; c++)
        {
            if (children[c] == Terminal.False)
                continue;
            _open[fact] |= 1UL << c;
            Pass(fact, children[c]);
            if (!Collect(children[c]))
                return false;
        }

        return true;
    }

    /// <summary>The facts between are not tested on this way, so that each of their classes is open.</summary>
    void Pass(int from, int to)
    {
        _passed[from + 1]++;
        _passed[Terminal.Is(to) ? arity.Length : nodes.VariableOf(to)]--;
    }
}
