using EarHelp.Proof.Spaces;
using EarHelp.Triage.Diagrams;

namespace EarHelp.Proof.Comparing;

/// <summary>Two decisions as one diagram that ends in the number of a pair of ends.</summary>
sealed class Pairing(ProofSpace space)
{
    readonly Dictionary<(int Before, int After), int> _nodes = [];
    readonly List<(int Before, int After)> _pairs = [];

    /// <summary>Each pair of ends that differs, with the patients who go from the one to the other.</summary>
    /// <param name="isSame">Null stands for answers that cannot stand together.</param>
    public IEnumerable<(int? Before, int? After, int Set)> Differing(int before, int after, Func<int?, int?, bool> isSame)
    {
        _nodes.Clear();
        _pairs.Clear();
        var root = Walk(before, after);
        for (var number = 0; number < _pairs.Count; number++)
        {
            var (one, other) = (ValueOf(_pairs[number].Before), ValueOf(_pairs[number].After));
            if (!isSame(one, other))
                yield return (one, other, space.Where(root, n => n == number));
        }
    }

    int Walk(int before, int after)
    {
        if (Terminal.Is(before) && Terminal.Is(after))
            return Terminal.Of(NumberOf((before, after)));
        if (_nodes.TryGetValue((before, after), out var known))
            return known;
        var variable = Math.Min(Top(before), Top(after));
        Span<int> children = stackalloc int[space.Classes[variable].Count];
        for (var i = 0; i < children.Length; i++)
            children[i] = Walk(Child(before, variable, i), Child(after, variable, i));
        return _nodes[(before, after)] = space.Builder.Make(variable, children);
    }

    int NumberOf((int, int) pair)
    {
        var number = _pairs.IndexOf(pair);
        if (number >= 0)
            return number;
        _pairs.Add(pair);
        return _pairs.Count - 1;
    }

    static int? ValueOf(int end) => end == Terminal.Impossible ? null : Terminal.ValueOf(end);

    int Top(int node) => Terminal.Is(node) ? int.MaxValue : space.Builder.Nodes.VariableOf(node);

    int Child(int node, int variable, int valueClass) =>
        Terminal.Is(node) || space.Builder.Nodes.VariableOf(node) != variable ? node : space.Builder.Nodes.ChildOf(node, valueClass);
}
