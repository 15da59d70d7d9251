namespace EarHelp.Triage.Diagrams;

/// <summary>The nodes of a dialog's diagrams together with those that a restriction makes besides; each is kept once.</summary>
sealed class NodesLeft(DialogDiagrams diagrams)
{
    readonly NodeTable _base = diagrams.Nodes;
    readonly NodeTable _made = new(diagrams.Arity, diagrams.Nodes.Count);
    readonly int _baseCount = diagrams.Nodes.Count;

    /// <summary>Forgets what was made.</summary>
    public void Clear() => _made.Clear();

    public int Make(int variable, ReadOnlySpan<int> children)
    {
        if (!children.ContainsAnyExcept(children[0]))
            return children[0];
        var found = _base.Find(variable, children);
        if (found < 0)
            found = _made.Find(variable, children);
        if (found >= 0)
            return found;
        var reach = default(Reach);
        foreach (var child in children)
            reach = reach.With(ReachOf(child));
        return _made.Add(variable, children, reach.Under(variable));
    }

    public Reach ReachOf(int node) =>
        Terminal.Is(node) ? Reach.OfTerminal(node) : node < _baseCount ? _base.ReachOf(node) : _made.ReachOf(node);

    public int VariableOf(int node) => node < _baseCount ? _base.VariableOf(node) : _made.VariableOf(node);

    public ReadOnlySpan<int> ChildrenOf(int node) => node < _baseCount ? _base.ChildrenOf(node) : _made.ChildrenOf(node);

    /// <summary>The first fact that the node speaks of, or <see cref="int.MaxValue"/>.</summary>
    public int TopOf(int node) => Terminal.Is(node) ? int.MaxValue : VariableOf(node);

    /// <summary>Where a class of the variable leads; the node itself if it does not test the variable first.</summary>
    public int ChildAt(int node, int variable, int valueClass) =>
        Terminal.Is(node) || VariableOf(node) != variable
            ? node
            : node < _baseCount ? _base.ChildOf(node, valueClass) : _made.ChildOf(node, valueClass);
}
