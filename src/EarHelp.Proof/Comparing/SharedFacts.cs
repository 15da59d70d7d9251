using System.Collections.Immutable;
using EarHelp.Triage.Diagrams;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace EarHelp.Proof.Comparing;

/// <summary>
/// Two dialogs written over the same facts: on the common refinement of both. A fact that only one of them has never applies in the other;
/// a value that only one of them has is impossible in the other.
/// </summary>
sealed class SharedFacts
{
    readonly ImmutableArray<FactMerge> _merged;

    public SharedFacts(Dialog before, Dialog after)
    {
        _merged = FactMerge.Of(before.Facts, after.Facts);
        Old = Rewrite(before, m => m.Old, (m, values) => m.OfOld(values));
        New = Rewrite(after, m => m.New, (m, values) => m.OfNew(values));
        Classes = [.. _merged.Select((m, i) => ValueClasses.Split(m.Values.Count, [.. DialogDiagrams.ToldOf(Old, i), .. DialogDiagrams.ToldOf(New, i)]))];
        OnlyOld = [.. _merged.Where(m => m.New is null).Select(m => m.Id)];
        OnlyNew = [.. _merged.Where(m => m.Old is null).Select(m => m.Id)];
    }

    public Dialog Old { get; }

    public Dialog New { get; }

    public ImmutableArray<ValueClasses> Classes { get; }

    public ImmutableArray<string> OnlyOld { get; }

    public ImmutableArray<string> OnlyNew { get; }

    Dialog Rewrite(Dialog dialog, Func<FactMerge, int?> own, Func<FactMerge, ValueSet, ValueSet> moved)
    {
        var placeOf = new int[dialog.Facts.Length];
        for (var i = 0; i < _merged.Length; i++)
        {
            if (own(_merged[i]) is { } index)
                placeOf[index] = i;
        }

        return dialog with
        {
            Facts = [.. _merged.Select((m, i) => own(m) is { } index ? Placed(dialog.Facts[index], m, i) : Absent(m, i))],
            NamedFacts = [.. dialog.NamedFacts.Select(n => n with { Rows = [.. n.Rows.Select(r => r with { Conditions = All(r.Conditions) })] })],
            Screens = [.. dialog.Screens.Select(s => s with { Facts = [.. s.Facts.Select(f => placeOf[f])] })],
            Rules = [.. dialog.Rules.Select(r => r with { Conditions = All(r.Conditions), CountsFrom = r.CountsFrom is { } fact ? placeOf[fact] : null })],
            TreatRules = [.. dialog.TreatRules.Select(t => t with { Conditions = All(t.Conditions) })],
            Advice = [.. dialog.Advice.Select(a => a with { OnlyIf = All(a.OnlyIf), NeverIf = All(a.NeverIf) })],
            Explanations = [.. dialog.Explanations.Select(e => e with { OnlyIf = All(e.OnlyIf) })],
            Impossible = [.. dialog.Impossible.Select(i => i with { One = Of(i.One), Other = Of(i.Other) }), .. UnknownValues()],
            Destinations = [.. dialog.Destinations.Select(d => d with { ReachedWhen = d.ReachedWhen is { } reached ? Of(reached) : null })],
        };

        ImmutableArray<Condition> All(ImmutableArray<Condition> conditions) => [.. conditions.Select(Of)];

        Condition Of(Condition condition) => condition.Of.IsNamedFact
            ? condition
            : condition with { Of = new FactReference(false, placeOf[condition.Of.Index]), Values = moved(_merged[placeOf[condition.Of.Index]], condition.Values) };

        Fact Placed(Fact fact, FactMerge merge, int index) => fact with
        {
            Index = index,
            Values = merge.Values,
            Clear = fact.Clear is { } clear ? moved(merge, ValueSet.Of(clear)).Least : null,
            AppliesWhen = All(fact.AppliesWhen),
        };

        IEnumerable<ImpossiblePair> UnknownValues() =>
            from place in Enumerable.Range(0, _merged.Length)
            where own(_merged[place]) is not null
            let unknown = moved(_merged[place], dialog.Facts[own(_merged[place])!.Value].Values.All).Complement(_merged[place].Values.Count)
            where !unknown.IsEmpty
            let condition = new Condition(new FactReference(false, place), unknown, "a value that this edition does not have", default)
            select new ImpossiblePair(condition, condition, "", default);
    }

    static Fact Absent(FactMerge merge, int index) => new(
        index, merge.Id, About.Person, merge.Values, null, AskIn.Story, new Worse.NoDirection(""), null, new RedFlag.Unmarked(),
        [new Condition(new FactReference(false, index), ValueSet.Empty, "", default)], default);
}
