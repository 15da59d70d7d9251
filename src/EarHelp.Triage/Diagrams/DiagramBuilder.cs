namespace EarHelp.Triage.Diagrams;

/// <summary>Builds reduced, ordered, multi-valued diagrams that share their nodes.</summary>
sealed class DiagramBuilder(int[] arity, int nodeLimit)
{
    readonly ChoiceMemo _chosen = new();

    public NodeTable Nodes { get; } = new(arity, 0);

    /// <summary>The node that tests a variable; a test whose answers all lead to one place is left out.</summary>
    public int Make(int variable, ReadOnlySpan<int> children)
    {
        if (!children.ContainsAnyExcept(children[0]))
            return children[0];
        var found = Nodes.Find(variable, children);
        if (found >= 0)
            return found;
        if (Nodes.Count >= nodeLimit)
        {
            throw new DiagramLimitException(
                $"The tables need more than {nodeLimit} diagram nodes. Put the facts that most rows use earlier, or split a table.");
        }

        var reach = default(Reach);
        foreach (var child in children)
            reach = reach.With(Terminal.Is(child) ? Reach.OfTerminal(child) : Nodes.ReachOf(child));
        return Nodes.Add(variable, children, reach.Under(variable));
    }

    /// <summary>True where the variable's class is in the mask.</summary>
    public int Literal(int variable, ulong mask)
    {
        Span<int> children = stackalloc int[arity[variable]];
        for (var i = 0; i < children.Length; i++)
            children[i] = (mask >> i & 1) == 1 ? Terminal.True : Terminal.False;
        return Make(variable, children);
    }

    public int And(int one, int other) => Choose(one, other, Terminal.False);

    public int Or(int one, int other) => Choose(one, Terminal.True, other);

    /// <summary>Halves are put together: so the many steps are small, and only the last few are over the whole diagram.</summary>
    public int Any(ReadOnlySpan<int> roots) => roots.Length switch
    {
        0 => Terminal.False,
        1 => roots[0],
        _ => Or(Any(roots[..(roots.Length / 2)]), Any(roots[(roots.Length / 2)..])),
    };

    public int Not(int one) => Choose(one, Terminal.False, Terminal.True);

    /// <summary>Where <paramref name="condition"/> is true the one diagram, else the other.</summary>
    public int Choose(int condition, int then, int otherwise)
    {
        if (condition == Terminal.True || then == otherwise)
            return then;
        if (condition == Terminal.False)
            return otherwise;
        if (then == Terminal.True && otherwise == Terminal.False)
            return condition;
        if (_chosen.TryGet(condition, then, otherwise, out var known))
            return known;
        var variable = Math.Min(Top(condition), Math.Min(Top(then), Top(otherwise)));
        Span<int> children = stackalloc int[arity[variable]];
        for (var i = 0; i < children.Length; i++)
            children[i] = Choose(Child(condition, variable, i), Child(then, variable, i), Child(otherwise, variable, i));
        var made = Make(variable, children);
        _chosen.Add(condition, then, otherwise, made);
        return made;
    }

    /// <summary>The diagram with each terminal value exchanged.</summary>
    public int Exchange(int node, Func<int, int> terminal)
    {
        var done = new Dictionary<int, int>();
        return Walk(node);

        int Walk(int at)
        {
            if (Terminal.Is(at))
                return at == Terminal.Impossible ? at : terminal(at);
            if (done.TryGetValue(at, out var known))
                return known;
            var variable = Nodes.VariableOf(at);
            Span<int> children = stackalloc int[arity[variable]];
            for (var i = 0; i < children.Length; i++)
                children[i] = Walk(Nodes.ChildOf(at, i));
            var made = Make(variable, children);
            done.Add(at, made);
            return made;
        }
    }

    int Top(int node) => Terminal.Is(node) ? int.MaxValue : Nodes.VariableOf(node);

    int Child(int node, int variable, int valueClass) =>
        Terminal.Is(node) || Nodes.VariableOf(node) != variable ? node : Nodes.ChildOf(node, valueClass);
}
