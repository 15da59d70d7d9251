using System.Collections.Immutable;
using EarHelp.Triage.Assessments;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace EarHelp.Triage.Diagrams;

/// <summary>
/// All decisions of a dialog as diagrams over the asked facts of the person and one ear. Named facts, and tables that feed tables, are
/// composed away; a fact that does not apply makes every condition on it false.
/// </summary>
sealed class DialogDiagrams
{
    /// <summary>Bound on the nodes of one dialog.</summary>
    public const int NodeLimit = 4_000_000;

    DialogDiagrams(
        NodeTable nodes,
        ImmutableArray<ValueClasses> classes,
        int[] arity,
        WhereLists places,
        Roots roots,
        ImmutableArray<bool> isAlwaysOpen)
    {
        IsAlwaysOpen = isAlwaysOpen;
        Nodes = nodes;
        Classes = classes;
        Arity = arity;
        Places = places;
        Roots = roots;
    }

    public NodeTable Nodes { get; }

    /// <summary>By index of the fact.</summary>
    public ImmutableArray<ValueClasses> Classes { get; }

    public int[] Arity { get; }

    /// <summary>By index of the destination.</summary>
    public ImmutableArray<bool> IsAlwaysOpen { get; }

    /// <summary>What the ends of <see cref="Diagrams.Roots.Urgency"/> mean.</summary>
    public WhereLists Places { get; }

    public Roots Roots { get; }

    public static DialogDiagrams Build(Dialog dialog)
    {
        var classes = dialog.Facts.Select(f => ValueClasses.Split(f.Values.Count, [.. ToldOf(dialog, f.Index)])).ToImmutableArray();
        var arity = classes.Select(c => c.Count).ToArray();
        var builder = new DiagramBuilder(arity, NodeLimit);
        var places = new WhereLists();
        var roots = new RootsBuilder(dialog, builder, classes, places).Build();
        var alwaysOpen = dialog.Destinations.Select(d => d.Hours == DestinationHours.Always).ToImmutableArray();
        return new DialogDiagrams(builder.Nodes, classes, arity, places, roots, alwaysOpen);
    }

    /// <summary>Every set of a fact's values that a condition asks for.</summary>
    public static IEnumerable<ValueSet> ToldOf(Dialog dialog, int fact) =>
        AllConditions(dialog).Where(c => !c.Of.IsNamedFact && c.Of.Index == fact).Select(c => c.Values);

    /// <summary>Every condition, wherever it stands.</summary>
    public static IEnumerable<Condition> AllConditions(Dialog dialog) =>
    [
        .. dialog.Facts.SelectMany(f => f.AppliesWhen),
        .. dialog.NamedFacts.SelectMany(n => n.Rows).SelectMany(r => r.Conditions),
        .. dialog.Rules.SelectMany(r => r.Conditions),
        .. dialog.TreatRules.SelectMany(r => r.Conditions),
        .. dialog.Advice.SelectMany(a => a.OnlyIf.AddRange(a.NeverIf)),
        .. dialog.Explanations.SelectMany(e => e.OnlyIf),
        .. dialog.Impossible.SelectMany(i => new[] { i.One, i.Other }),
        .. dialog.Destinations.Select(d => d.ReachedWhen).OfType<Condition>(),
    ];
}

/// <summary>The roots of a dialog's diagrams.</summary>
/// <param name="Level">Ends in ranks.</param>
/// <param name="Urgency">Ends in numbers of <see cref="WhereLists"/>: the level with its destinations that can be reached.</param>
/// <param name="Treat">Ends in indexes of <paramref name="TreatDecisions"/>, the strictest first; true if there is nothing to decide.</param>
/// <param name="Advice">By item: it is called for and nothing forbids it (the level that it waits for apart).</param>
/// <param name="Forbidden">By item: an answer or a row forbids it (the level that it waits for apart).</param>
/// <param name="Warnings">In the order of the dialog's warnings.</param>
/// <param name="Rules">By rule: it matches.</param>
/// <param name="Possible">The answers can stand together.</param>
sealed record Roots(
    int Level,
    int Urgency,
    int Treat,
    ImmutableArray<TreatDecision> TreatDecisions,
    ImmutableArray<int> Advice,
    ImmutableArray<int> Forbidden,
    ImmutableArray<int> Warnings,
    ImmutableArray<int> Explanations,
    ImmutableArray<int> Rules,
    int Possible);
