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
        (int Possible, Roots OfPossible, Roots Plain, SureDecisions Sure) roots,
        ImmutableArray<TreatDecision> treatDecisions,
        ImmutableArray<bool> isAlwaysOpen)
    {
        IsAlwaysOpen = isAlwaysOpen;
        Nodes = nodes;
        Classes = classes;
        Arity = arity;
        Places = places;
        (Possible, OfPossible, Plain, Sure) = roots;
        TreatDecisions = treatDecisions;
    }

    public NodeTable Nodes { get; }

    /// <summary>By index of the fact.</summary>
    public ImmutableArray<ValueClasses> Classes { get; }

    public int[] Arity { get; }

    /// <summary>By index of the destination.</summary>
    public ImmutableArray<bool> IsAlwaysOpen { get; }

    /// <summary>What the ends of <see cref="Roots.Urgency"/> mean.</summary>
    public WhereLists Places { get; }

    /// <summary>What the ends of <see cref="Roots.Treat"/> mean, the strictest first.</summary>
    public ImmutableArray<TreatDecision> TreatDecisions { get; }

    /// <summary>The answers can stand together.</summary>
    public int Possible { get; }

    /// <summary>All decisions, with an end of its own where the answers cannot stand together.</summary>
    public Roots OfPossible { get; }

    /// <summary>All decisions where the answers are known to stand together.</summary>
    public Roots Plain { get; }

    /// <summary>The yes/no decisions of <see cref="Plain"/>, for patients whose every answer is sure.</summary>
    public SureDecisions Sure { get; }

    public static DialogDiagrams Build(Dialog dialog)
    {
        var classes = dialog.Facts.Select(f => ValueClasses.Split(f.Values.Count, [.. ToldOf(dialog, f.Index)])).ToImmutableArray();
        var arity = classes.Select(c => c.Count).ToArray();
        var builder = new DiagramBuilder(arity, NodeLimit);
        var places = new WhereLists();
        var building = new RootsBuilder(dialog, builder, classes, places);
        var roots = building.Build(arity);
        var alwaysOpen = dialog.Destinations.Select(d => d.Hours == DestinationHours.Always).ToImmutableArray();
        return new DialogDiagrams(builder.Nodes, classes, arity, places, roots, building.TreatDecisions, alwaysOpen);
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

    /// <summary>The decisions to read under the present knowledge; null if the answers cannot stand together.</summary>
    public Roots? RootsUnder(Restriction restriction)
    {
        if (restriction.Of(Possible, Merge.Every) == Terminal.True)
            return Plain;
        return restriction.Of(Possible, Merge.Some) == Terminal.False ? null : OfPossible;
    }
}
