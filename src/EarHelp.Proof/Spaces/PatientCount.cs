using System.Collections.Immutable;
using System.Numerics;
using EarHelp.Triage.Diagrams;

namespace EarHelp.Proof.Spaces;

/// <summary>
/// Counts the patients of a set over the declared values of every fact: one person with one affected ear, each told apart by the values
/// of the facts that apply. A fact that does not apply has no value and multiplies nothing.
/// </summary>
sealed class PatientCount(NodeTable nodes, ImmutableArray<ValueClasses> classes, Gates gates)
{
    readonly Dictionary<(int Set, int Gates), BigInteger> _known = [];
    readonly BigInteger[] _sizes = [.. classes.Select(c => c.Members.Aggregate(BigInteger.Zero, (sum, m) => sum + m.Count))];

    /// <param name="set">A diagram that ends in true and false.</param>
    public BigInteger Of(int set) => Skipped(0, Top(set, gates.Root)) * Count(set, gates.Root);

    BigInteger Count(int set, int gate)
    {
        if (set == Terminal.False || set == Terminal.Impossible || gate == Terminal.False)
            return BigInteger.Zero;
        if (Terminal.Is(set) && Terminal.Is(gate))
            return BigInteger.One;
        if (_known.TryGetValue((set, gate), out var known))
            return known;
        var fact = Top(set, gate);
        var isGated = !Terminal.Is(gate) && gates.Nodes.VariableOf(gate) == fact;
        var isAsked = !Terminal.Is(set) && nodes.VariableOf(set) == fact;
        var members = classes[fact].Members;
        var sum = BigInteger.Zero;
        for (var i = 0; i < (isGated ? gates.Nodes.ChildrenOf(gate).Length : members.Length); i++)
        {
            // Where the fact does not apply the set does not ask it, whatever its value.
            var nextSet = isAsked ? nodes.ChildOf(set, Math.Min(i, members.Length - 1)) : set;
            var nextGate = isGated ? gates.Nodes.ChildOf(gate, i) : gate;
            var counted = Count(nextSet, nextGate);
            if (!counted.IsZero)
                sum += (i < members.Length ? members[i].Count : 1) * Skipped(fact + 1, Top(nextSet, nextGate)) * counted;
        }

        _known.Add((set, gate), sum);
        return sum;
    }

    int Top(int set, int gate) =>
        Math.Min(
            Terminal.Is(set) ? classes.Length : nodes.VariableOf(set),
            Terminal.Is(gate) ? classes.Length : gates.Nodes.VariableOf(gate));

    /// <summary>The values of the facts from one up to another, which is left out: none of them is asked about.</summary>
    BigInteger Skipped(int from, int to)
    {
        var product = BigInteger.One;
        for (var fact = from; fact < to; fact++)
            product *= _sizes[fact];
        return product;
    }
}
