using System.Collections.Immutable;
using EarHelp.Triage.Diagrams;
using EarHelp.Triage.Editions;

namespace EarHelp.Proof.Spaces;

/// <summary>
/// Which facts apply, as a diagram in which a fact that may not apply has one class more: "does not apply". It is true exactly where
/// each fact has that class if, and only if, it does not apply.
/// </summary>
sealed record Gates(NodeTable Nodes, int Root)
{
    /// <summary>A fact applies if it applies in one of the dialogs.</summary>
    public static Gates Of(ImmutableArray<Dialog> dialogs, ImmutableArray<ValueClasses> classes, int nodeLimit)
    {
        var gated = Enumerable.Range(0, classes.Length).Where(f => dialogs.All(d => !d.Facts[f].AppliesWhen.IsEmpty)).ToArray();
        var arity = classes.Select(c => c.Count).ToArray();
        foreach (var fact in gated)
        {
            // One class more must still fit a machine word.
            if (++arity[fact] > ValueClasses.Most)
                throw new DiagramLimitException($"\"{dialogs[0].Facts[fact].Id}\" is split into {classes[fact].Count} classes of values; the bound is {ValueClasses.Most - 1} for a fact that may not apply.");
        }

        var builder = new DiagramBuilder(arity, nodeLimit);
        var composed = dialogs.Select(d => new RootsBuilder(d, builder, classes, new WhereLists())).ToArray();
        foreach (var one in composed)
            one.Prepare();
        var root = Terminal.True;
        foreach (var fact in gated.Reverse())
        {
            var applies = composed.Select(c => c.AppliesOf(fact)).Aggregate(Terminal.False, builder.Or);
            var isNone = builder.Literal(fact, 1UL << classes[fact].Count);
            root = builder.And(builder.Choose(applies, builder.Not(isNone), isNone), root);
        }

        return new Gates(builder.Nodes, root);
    }
}
