using System.Collections.Immutable;
using EarHelp.Proof.Spaces;
using EarHelp.Triage.Diagrams;

namespace EarHelp.Proof.Patients;

/// <summary>Finds in a set of patients the one with the fewest answers that are not ordinary.</summary>
/// <param name="also">The other dialog over the same facts, if two are compared: what applies in it is told too.</param>
sealed class SmallestPatient(ProofSpace space, FactNames names, ProofSpace? also = null)
{
    const int Never = int.MaxValue / 2;

    readonly OrdinaryValues _ordinary = new(space.Dialog, space.Classes);
    readonly Dictionary<int, int> _cost = [];

    /// <param name="set">A diagram that ends in true and false, and true for somebody.</param>
    /// <param name="unsure">A fact whose value the patient does not know, or null.</param>
    public ExamplePatient Of(int set, int? unsure = null)
    {
        var (classes, asked) = PathIn(set);
        return Told(classes, asked, unsure);
    }

    /// <summary>By fact, the class of the smallest patient's value, and whether the set asks for it.</summary>
    public (int[] Classes, bool[] Asked) PathIn(int set)
    {
        if (CostOf(set) >= Never)
            throw new ArgumentException("Nobody is in the set.", nameof(set));
        int[] classes = [.. _ordinary.Class];
        var asked = new bool[classes.Length];
        for (var at = set; !Terminal.Is(at); at = space.Builder.Nodes.ChildOf(at, classes[space.Builder.Nodes.VariableOf(at)]))
        {
            var fact = space.Builder.Nodes.VariableOf(at);
            classes[fact] = Enumerable.Range(0, space.Classes[fact].Count).MinBy(i => _ordinary.CostOf(fact, i) + CostOf(space.Builder.Nodes.ChildOf(at, i)));
            asked[fact] = true;
        }

        return (classes, asked);
    }

    /// <param name="exactly">A fact and its value, where any member of its class will not do.</param>
    public ExamplePatient Told(int[] classes, bool[] asked, int? unsure = null, (int Fact, int Value)? exactly = null)
    {
        var facts = space.Dialog.Facts
            .Where(f => Applies(space, f.Index, classes) || (also is not null && Applies(also, f.Index, classes)))
            .Select(f => new ToldFact(f, f.Index == exactly?.Fact ? exactly.Value.Value : _ordinary.MemberOf(f, classes[f.Index]), asked[f.Index], f.Index == unsure))
            .ToImmutableArray();
        return new PatientWords(space.Dialog, names).Tell(facts);
    }

    static bool Applies(ProofSpace space, int fact, int[] classes) => space.EndOf(space.Composed.AppliesOf(fact), classes) == Terminal.True;

    int CostOf(int node)
    {
        if (Terminal.Is(node))
            return node == Terminal.True ? 0 : Never;
        if (_cost.TryGetValue(node, out var known))
            return known;
        var fact = space.Builder.Nodes.VariableOf(node);
        var least = Never;
        for (var i = 0; i < space.Classes[fact].Count; i++)
            least = Math.Min(least, _ordinary.CostOf(fact, i) + CostOf(space.Builder.Nodes.ChildOf(node, i)));
        _cost.Add(node, least);
        return least;
    }
}
