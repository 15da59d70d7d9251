namespace EarHelp.Triage.Diagrams;

/// <summary>One diagram laid out for walking: each node's fact and its children stand side by side, so that a step touches one place.</summary>
sealed class LevelWalk
{
    readonly int[] _laid;
    readonly int _root;

    public LevelWalk(NodeTable nodes, int root)
    {
        var laid = new List<int>();
        var places = new Dictionary<int, int>();
        _root = Lay(root);
        _laid = [.. laid];

        int Lay(int node)
        {
            if (Terminal.Is(node))
                return node;
            if (places.TryGetValue(node, out var known))
                return known;
            var at = laid.Count;
            places.Add(node, at);
            laid.Add(nodes.VariableOf(node));
            var count = nodes.ChildrenOf(node).Length;
            for (var c = 0; c < count; c++)
                laid.Add(0);
            for (var c = 0; c < count; c++)
                laid[at + 1 + c] = Lay(nodes.ChildOf(node, c));
            return at;
        }
    }

    /// <summary>The end for one class of each fact.</summary>
    public int EndOf(ReadOnlySpan<int> classes)
    {
        var laid = _laid.AsSpan();
        var at = _root;
        while (!Terminal.Is(at))
            at = laid[at + 1 + classes[laid[at]]];
        return at;
    }
}
