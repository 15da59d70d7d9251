using System.Collections.Immutable;
using EarHelp.Triage.Asking;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace EarHelp.Triage.Tests.Randomly;

/// <summary>Small dialogs made by chance, for holding the diagrams against a plain reading of the tables.</summary>
public sealed class RandomDialog(int seed)
{
    readonly Random _random = new(seed);

    public Dialog Make()
    {
        var facts = Enumerable.Range(0, 4 + _random.Next(3)).Aggregate(ImmutableArray<Fact>.Empty, (made, i) => made.Add(MakeFact(i, made)));
        var named = Enumerable.Range(0, _random.Next(3))
            .Aggregate(ImmutableArray<NamedFact>.Empty, (made, i) => made.Add(MakeNamedFact(i, facts, made)));
        ImmutableArray<Level> levels = [.. Enumerable.Range(0, 4).Select(i => new Level(i, $"level {i}", null, null, default))];
        ImmutableArray<Destination> destinations =
        [
            new(0, "hospital", DestinationHours.Always, null, default),
            new(1, "practice", DestinationHours.Unknown, null, default),
            new(2, "clinic", DestinationHours.Clinic, Chance(2) ? MakeCondition(facts, []) : null, default),
            new(3, "home", DestinationHours.Always, null, default),
        ];
        ImmutableArray<AdviceItem> advice = [.. Enumerable.Range(0, 3).Select(i => MakeAdvice(i, facts, named))];
        ImmutableArray<Rule> rules = [.. Enumerable.Range(0, 4 + _random.Next(4)).Select(i => MakeRule(i, facts, named)), Otherwise(8)];
        rules = [.. rules.Select((r, i) => r with { Index = i })];
        ImmutableArray<TreatRule> treat =
        [
            .. Enumerable.Range(0, _random.Next(3)).Select(i => new TreatRule(i, $"T{i}", Conditions(facts, named), $"hold {i}", "", [], default)),
        ];
        treat = treat.IsEmpty ? treat : treat.Add(new TreatRule(treat.Length, "T9", [], null, "", [], default));
        var impossible = Chance(3)
            ? ImmutableArray.Create(new ImpossiblePair(MakeCondition(facts, []), MakeCondition(facts, []), "", default))
            : [];
        ImmutableArray<Screen> screens = [.. facts.Select(f => new Screen(f.Index, f.Id, [f.Index], f.AskIn, f.About, default))];
        return new Dialog("random", 99, facts, named, screens, rules, treat, advice, [], impossible, levels, destinations);
    }

    /// <summary>Some facts asked, with one value, several or all.</summary>
    public ImmutableArray<Answers.Answer> SomeAnswers(Dialog dialog) =>
    [
        .. dialog.Facts.Select<Fact, Answers.Answer>(f => _random.Next(3) switch
        {
            0 => new Answers.Answer.Asked(ValueSet.Of(_random.Next(f.Values.Count))),
            1 when Chance(2) => new Answers.Answer.Asked(ValueSet.Of(_random.Next(f.Values.Count)).Union(ValueSet.Of(_random.Next(f.Values.Count)))),
            1 => new Answers.Answer.Asked(f.Values.All),
            _ => Answers.Answer.Unknown,
        }),
    ];

    public int Next(int below) => _random.Next(below);

    bool Chance(int oneIn) => _random.Next(oneIn) == 0;

    Fact MakeFact(int index, ImmutableArray<Fact> earlier)
    {
        FactValues values = Chance(3)
            ? new FactValues.Numbers(0, 3, 1, "days")
            : new FactValues.Named([.. new[] { "a", "b", "c" }.Take(2 + _random.Next(2))]);
        ImmutableArray<Condition> applies = index > 0 && Chance(3) ? [MakeCondition(earlier, [])] : [];
        return new Fact(
            index, $"fact {index}", About.Ear, values, null, AskIn.Safety, new Worse.Towards(true), null, new RedFlag.Unmarked(), applies, default);
    }

    NamedFact MakeNamedFact(int index, ImmutableArray<Fact> facts, ImmutableArray<NamedFact> earlier) =>
        new(
            index,
            $"named {index}",
            new FactValues.Named(["yes", "no"]),
            [.. Enumerable.Range(0, 1 + _random.Next(2)).Select(_ => new NamedFactRow(Conditions(facts, earlier), _random.Next(2), [], default))],
            1,
            default);

    AdviceItem MakeAdvice(int index, ImmutableArray<Fact> facts, ImmutableArray<NamedFact> named) =>
        new(
            index,
            $"advice {index}",
            index == 2 ? AdviceKind.LeaveAlone : AdviceKind.ToDo,
            About.Ear,
            Chance(2) ? Conditions(facts, named) : [],
            Chance(2) ? Conditions(facts, named) : [],
            Chance(2) ? 1 : null,
            [],
            default);

    Rule MakeRule(int index, ImmutableArray<Fact> facts, ImmutableArray<NamedFact> named) =>
        new(
            index,
            $"R{index}",
            "random",
            Conditions(facts, named),
            Chance(6) ? null : _random.Next(4),
            Chance(2) ? [2, 0] : Chance(2) ? [1, 3] : [0],
            Chance(3) ? ["warning"] : [],
            Chance(4) ? [0] : [],
            Chance(4) ? [1] : [],
            null,
            "",
            [],
            "high",
            [],
            default);

    static Rule Otherwise(int index) =>
        new(index, "R9", "random", [], 2, [1, 3], [], [], [], null, "", [], "high", [], default);

    ImmutableArray<Condition> Conditions(ImmutableArray<Fact> facts, ImmutableArray<NamedFact> named) =>
        [.. Enumerable.Range(0, 1 + _random.Next(3)).Select(_ => MakeCondition(facts, named))];

    Condition MakeCondition(ImmutableArray<Fact> facts, ImmutableArray<NamedFact> named)
    {
        var at = _random.Next(facts.Length + named.Length);
        var isNamed = at >= facts.Length;
        var count = isNamed ? 2 : facts[at].Values.Count;
        var values = ValueSet.OfMany(Enumerable.Range(0, count).Where(_ => Chance(2)));
        return new Condition(new FactReference(isNamed, isNamed ? at - facts.Length : at), values, "", default);
    }
}
