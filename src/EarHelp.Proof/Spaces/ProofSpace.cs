using System.Collections.Immutable;
using EarHelp.Triage.Diagrams;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Rules;

namespace EarHelp.Proof.Spaces;

/// <summary>
/// The diagrams of one dialog, as they decide, with what a proof needs besides: sets of patients as diagrams that end in true and
/// false, and the rows that made them. Not for two threads at once.
/// </summary>
sealed class ProofSpace
{
    ProofSpace(Dialog dialog, DiagramBuilder builder, ImmutableArray<ValueClasses> classes, PatientCount count, WhereLists places)
    {
        (Dialog, Builder, Classes, Count, Places) = (dialog, builder, classes, count, places);
        Composed = new RootsBuilder(dialog, builder, classes, Places);
        Roots = Decisions.Of(Composed, [.. classes.Select(c => c.Count)]);
        Matches = Composed.MatchesOf();
    }

    public Dialog Dialog { get; }

    public DiagramBuilder Builder { get; }

    /// <summary>By fact.</summary>
    public ImmutableArray<ValueClasses> Classes { get; }

    public WhereLists Places { get; }

    public RootsBuilder Composed { get; }

    public Decisions Roots { get; }

    /// <summary>By rule, who matches it, possible or not; without the end for those who are not possible.</summary>
    public ImmutableArray<int> Matches { get; }

    public PatientCount Count { get; }

    public int Possible => Roots.Possible;

    /// <exception cref="DiagramLimitException">More nodes than the bound are needed.</exception>
    public static ProofSpace Of(Dialog dialog, int nodeLimit)
    {
        var classes = dialog.Facts.Select(f => ValueClasses.Split(f.Values.Count, [.. DialogDiagrams.ToldOf(dialog, f.Index)])).ToImmutableArray();
        return Together([dialog], classes, nodeLimit)[0];
    }

    /// <summary>Several dialogs over the same facts and classes, in one space of nodes.</summary>
    public static ImmutableArray<ProofSpace> Together(ImmutableArray<Dialog> dialogs, ImmutableArray<ValueClasses> classes, int nodeLimit)
    {
        var builder = new DiagramBuilder([.. classes.Select(c => c.Count)], nodeLimit);
        var gates = Gates.Of(dialogs, classes, nodeLimit);
        var count = new PatientCount(builder.Nodes, classes, gates);
        return [.. dialogs.Select(d => new ProofSpace(d, builder, classes, count, new WhereLists()))];
    }

    /// <summary>A dialog with the same facts, levels and destinations in the same space: equal decisions are equal nodes.</summary>
    public ProofSpace Beside(Dialog dialog) => new(dialog, Builder, Classes, Count, Places);

    /// <summary>The possible patients of whom the root's end is as asked.</summary>
    public int Where(int root, Func<int, bool> end)
    {
        var done = new Dictionary<int, int>();
        return Walk(root);

        int Walk(int at)
        {
            if (Terminal.Is(at))
                return at != Terminal.Impossible && end(Terminal.ValueOf(at)) ? Terminal.True : Terminal.False;
            if (done.TryGetValue(at, out var known))
                return known;
            return done[at] = Again(at, Walk);
        }
    }

    /// <summary>The possible patients of whom a yes/no root is true.</summary>
    public int Where(int root) => Where(root, value => value == 1);

    public int And(params ReadOnlySpan<int> sets)
    {
        var all = Terminal.True;
        foreach (var set in sets)
            all = Builder.And(all, set);
        return all;
    }

    public int Without(int set, int others) => Builder.And(set, Builder.Not(others));

    public int Any(IEnumerable<int> sets) => sets.Aggregate(Terminal.False, Builder.Or);

    public int All(ImmutableArray<Condition> conditions) => Composed.All(conditions);

    public int Of(Condition condition) => Composed.Of(condition);

    /// <summary>Whoever can be made to belong to the set by another value of one fact.</summary>
    public int Some(int set, int fact)
    {
        var any = Terminal.False;
        for (var i = 0; i < Classes[fact].Count; i++)
            any = Builder.Or(any, Fix(set, fact, i));
        return any;
    }

    /// <summary>What is left of a root once a fact's class of values is known.</summary>
    public int Fix(int root, int fact, int valueClass)
    {
        var done = new Dictionary<int, int>();
        return Walk(root);

        int Walk(int at)
        {
            if (Terminal.Is(at) || Builder.Nodes.VariableOf(at) > fact)
                return at;
            if (Builder.Nodes.VariableOf(at) == fact)
                return Builder.Nodes.ChildOf(at, valueClass);
            if (done.TryGetValue(at, out var known))
                return known;
            return done[at] = Again(at, Walk);
        }
    }

    /// <summary>The end of a root for one patient, given by the class of each fact.</summary>
    public int EndOf(int root, ReadOnlySpan<int> classes)
    {
        while (!Terminal.Is(root))
            root = Builder.Nodes.ChildOf(root, classes[Builder.Nodes.VariableOf(root)]);
        return root;
    }

    /// <summary>The node with each child replaced.</summary>
    int Again(int at, Func<int, int> replaced)
    {
        var variable = Builder.Nodes.VariableOf(at);
        Span<int> children = stackalloc int[Classes[variable].Count];
        for (var i = 0; i < children.Length; i++)
            children[i] = replaced(Builder.Nodes.ChildOf(at, i));
        return Builder.Make(variable, children);
    }
}
