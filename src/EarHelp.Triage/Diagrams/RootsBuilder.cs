using System.Collections.Immutable;
using EarHelp.Triage.Assessments;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace EarHelp.Triage.Diagrams;

/// <summary>Composes the tables of a dialog into diagrams over its asked facts.</summary>
sealed class RootsBuilder(Dialog dialog, DiagramBuilder builder, ImmutableArray<ValueClasses> classes, WhereLists places)
{
    readonly int?[] _applies = new int?[dialog.Facts.Length];
    readonly int[] _named = new int[dialog.NamedFacts.Length];
    readonly Dictionary<(int Named, ValueSet Values), int> _namedConditions = [];
    readonly Dictionary<int, int> _laterThan = [];

    /// <summary>Composes when facts apply and what the named facts are: what <see cref="Of"/> and the rest stand on.</summary>
    public void Prepare()
    {
        foreach (var named in dialog.NamedFacts)
            _named[named.Index] = NamedFactOf(named);
    }

    /// <summary>Who it applies to.</summary>
    public int AppliesOf(int fact) => _applies[fact] ??= All(dialog.Facts[fact].AppliesWhen);

    /// <summary>Ends in the value of a named fact.</summary>
    public int NamedOf(int named) => _named[named];

    /// <summary>What the ends of the decision "may treat" mean, the strictest first.</summary>
    public ImmutableArray<TreatDecision> TreatDecisions { get; } =
    [
        .. dialog.TreatRules.Select(r => r.Hold).OfType<string>().Distinct(StringComparer.Ordinal).Select(h => new TreatDecision(h)),
        new TreatDecision(null),
    ];

    public (int Possible, Roots OfPossible, Roots Plain, SureDecisions Sure) Build(int[] arity)
    {
        Prepare();
        var rules = MatchesOf();
        var possible = builder.Not(Any(dialog.Impossible.Select(i => builder.And(Of(i.One), Of(i.Other)))));
        var level = LevelOf(rules);
        var urgency = UrgencyOf(rules);
        var treat = TreatOf();
        var forbidden = dialog.Advice.Select(a => ForbiddenOf(a, rules)).ToImmutableArray();
        var called = dialog.Advice.Select(a => CalledOf(a, rules, forbidden[a.Index])).ToImmutableArray();
        var advice = dialog.Advice.Select(a => a.NotWhile is { } rank ? builder.And(called[a.Index], LaterThan(rank, level)) : called[a.Index]).ToImmutableArray();
        var warnings = dialog.Warnings.Select(w => Any(dialog.Rules.Where(r => r.Warn.Contains(w)).Select(r => rules[r.Index]))).ToImmutableArray();
        var explanations = dialog.Explanations.Select(e => All(e.OnlyIf)).ToImmutableArray();
        var plain = Where(root => root);
        var ofPossible = Where(root => builder.Choose(possible, root, Terminal.Impossible));
        return (possible, ofPossible, plain, new SureDecisions(dialog, builder.Nodes, arity, plain, called));

        Roots Where(Func<int, int> of) => new(
            of(level),
            of(urgency),
            of(treat),
            Group(advice, of, i => dialog.Advice[i].Kind == AdviceKind.ToDo ? Merge.Every : Merge.Some),
            Group(forbidden, of, _ => Merge.Some),
            Group(warnings, of, _ => Merge.Some),
            Group(explanations, of, _ => Merge.Some),
            Group(rules, of, _ => Merge.Some));

        RootGroup Group(ImmutableArray<int> roots, Func<int, int> of, Func<int, Merge> merge) =>
            new(builder.Nodes, arity, [.. roots.Select(of)], merge);
    }

    /// <summary>By rule, who matches it. An otherwise-row matches whom no other row with a level matches.</summary>
    public ImmutableArray<int> MatchesOf()
    {
        var rules = dialog.Rules.Select(r => All(r.Conditions)).ToArray();
        var foreseen = Any(dialog.Rules.Where(r => r.Level is not null && !r.IsOtherwise).Select(r => rules[r.Index]));
        foreach (var otherwise in dialog.Rules.Where(r => r.IsOtherwise))
            rules[otherwise.Index] = builder.Not(foreseen);
        return [.. rules];
    }

    /// <summary>The most urgent matching row; no row at all is treated as the most urgent level.</summary>
    int LevelOf(ImmutableArray<int> rules) =>
        FirstOf([.. InDecidingOrder().Select(r => (rules[r.Index], Terminal.Of(r.Level!.Value)))], Terminal.Of(0));

    int UrgencyOf(ImmutableArray<int> rules) =>
        FirstOf([.. InDecidingOrder().Select(r => (rules[r.Index], PlacesOf(r.Level!.Value, r.Where, [])))], Terminal.Of(places.NumberOf(0, [])));

    /// <summary>The row's destinations, without those that cannot be reached.</summary>
    int PlacesOf(int rank, ImmutableArray<int> left, ImmutableArray<int> kept)
    {
        if (left.IsEmpty)
            return Terminal.Of(places.NumberOf(rank, kept));
        var rest = left.RemoveAt(0);
        var with = PlacesOf(rank, rest, kept.Add(left[0]));
        return dialog.Destinations[left[0]].ReachedWhen is { } reached
            ? builder.Choose(Of(reached), with, PlacesOf(rank, rest, kept))
            : with;
    }

    /// <summary>From the row that gives way to none to the one that gives way to all others.</summary>
    IEnumerable<Rule> InDecidingOrder() => dialog.Rules.Where(r => r.Level is not null).OrderBy(r => r.Level).ThenBy(r => r.Index);

    /// <summary>The first matching row; no row at all holds the treatment.</summary>
    int TreatOf() =>
        FirstOf(
            [.. dialog.TreatRules.Select(r => (All(r.Conditions), Terminal.Of(TreatDecisions.IndexOf(new TreatDecision(r.Hold)))))],
            Terminal.Of(dialog.TreatRules.IsEmpty ? TreatDecisions.Length - 1 : 0));

    /// <summary>
    /// What the first row that matches says. Halves are put together, not row after row: so the many small steps stay small, and only the
    /// last few are over the whole diagram.
    /// </summary>
    int FirstOf(ReadOnlySpan<(int Matches, int Says)> rows, int otherwise) => rows.IsEmpty ? otherwise : FirstOfHalf(rows, otherwise).Says;

    /// <summary>What the first row says; who meets none of them gets what is given.</summary>
    (int Matches, int Says) FirstOfHalf(ReadOnlySpan<(int Matches, int Says)> rows, int otherwise)
    {
        if (rows.Length == 1)
            return (rows[0].Matches, builder.Choose(rows[0].Matches, rows[0].Says, otherwise));
        var half = rows.Length / 2;
        var after = FirstOfHalf(rows[half..], otherwise);
        var before = FirstOfHalf(rows[..half], otherwise);
        return (builder.Or(before.Matches, after.Matches), builder.Choose(before.Matches, before.Says, after.Says));
    }

    int ForbiddenOf(AdviceItem item, ImmutableArray<int> rules) =>
        builder.Or(
            Any(item.NeverIf.Select(Of)),
            Any(dialog.Rules.Where(r => r.Withhold.Contains(item.Index)).Select(r => rules[r.Index])));

    /// <summary>Called for and not forbidden; the level that it waits for apart.</summary>
    int CalledOf(AdviceItem item, ImmutableArray<int> rules, int forbidden)
    {
        var giving = dialog.Rules.Where(r => r.Give.Contains(item.Index)).Select(r => rules[r.Index]).ToArray();
        var called = giving.Length > 0 && item.OnlyIf.IsEmpty ? Any(giving) : builder.Or(All(item.OnlyIf), Any(giving));
        return builder.And(called, builder.Not(forbidden));
    }

    int LaterThan(int rank, int level) => _laterThan.TryGetValue(rank, out var known)
        ? known
        : _laterThan[rank] = builder.Exchange(level, t => Terminal.ValueOf(t) > rank ? Terminal.True : Terminal.False);

    int NamedFactOf(NamedFact named)
    {
        var root = Terminal.Of(named.Otherwise ?? named.Rows[^1].Value);
        foreach (var row in named.Rows.Reverse())
            root = builder.Choose(All(row.Conditions), Terminal.Of(row.Value), root);
        return root;
    }

    public int Of(Condition condition)
    {
        if (condition.Of.IsNamedFact)
            return OfNamedFact(condition);
        var fact = condition.Of.Index;
        var literal = builder.Literal(fact, classes[fact].MaskOf(condition.Values));
        return literal == Terminal.False ? literal : builder.And(AppliesOf(fact), literal);
    }

    int OfNamedFact(Condition condition)
    {
        var key = (condition.Of.Index, condition.Values);
        return _namedConditions.TryGetValue(key, out var known)
            ? known
            : _namedConditions[key] = builder.Exchange(
                _named[condition.Of.Index],
                t => condition.Values.Contains(Terminal.ValueOf(t)) ? Terminal.True : Terminal.False);
    }

    public int All(ImmutableArray<Condition> conditions)
    {
        var root = Terminal.True;
        foreach (var condition in conditions.Reverse())
            root = builder.And(Of(condition), root);
        return root;
    }

    public int Any(IEnumerable<int> roots) => builder.Any([.. roots]);
}
