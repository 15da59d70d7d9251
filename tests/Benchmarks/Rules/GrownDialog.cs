using System.Collections.Immutable;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace Benchmarks.Rules;

/// <summary>
/// A dialog with several times as many facts, named facts, rules and advice items: each further time the same ones under other names, asked
/// after the others, as the questions and rules of a further complaint would be. Levels and places are shared, so that all the rules decide
/// together on one level; whom no row of one complaint foresees is still looked at, whatever is known of the others. What leads to the most urgent level is asked first and once: the further times it leads to the next level.
/// </summary>
static class GrownDialog
{
    public static Dialog Of(Dialog dialog, int times)
    {
        var copies = Enumerable.Range(0, times).Select(n => new Copy(dialog, n)).ToArray();
        ImmutableArray<Rule> rules = [.. copies.SelectMany(c => c.Rules), .. dialog.Rules.Where(r => r.IsOtherwise)];
        ImmutableArray<TreatRule> treat = [.. copies.SelectMany(c => c.TreatRules), .. dialog.TreatRules.Where(r => r.Conditions.IsEmpty)];
        return new Dialog(
            $"{dialog.Id} x {times}",
            dialog.ScreensAtMost * times,
            [.. copies.SelectMany(c => c.Facts)],
            [.. copies.SelectMany(c => c.NamedFacts)],
            [.. copies.SelectMany(c => c.Screens)],
            [.. rules.Select((r, i) => r with { Index = i })],
            [.. treat.Select((r, i) => r with { Index = i })],
            [.. copies.SelectMany(c => c.Advice)],
            [.. copies.SelectMany(c => c.Explanations)],
            [.. copies.SelectMany(c => c.Impossible)],
            dialog.Levels,
            dialog.Destinations)
        {
            AskedGently = [.. copies.SelectMany(c => dialog.AskedGently.Select(c.Name))],
        };
    }

    /// <summary>The first is the dialog itself.</summary>
    sealed class Copy(Dialog dialog, int number)
    {
        public IEnumerable<Fact> Facts => dialog.Facts.Select(f => f with
        {
            Index = Fact(f.Index),
            Id = Name(f.Id),
            Counted = f.Counted is { } counted ? counted with { NumberId = Name(counted.NumberId) } : null,
            AppliesWhen = All(f.AppliesWhen),
        });

        public IEnumerable<NamedFact> NamedFacts => dialog.NamedFacts.Select(n => n with
        {
            Index = Named(n.Index),
            Id = Name(n.Id),
            Rows = [.. n.Rows.Select(r => r with { Conditions = All(r.Conditions) })],
        });

        public IEnumerable<EarHelp.Triage.Asking.Screen> Screens => dialog.Screens.Select(s => s with
        {
            Index = s.Index + (number * dialog.Screens.Length),
            Id = Name(s.Id),
            Facts = [.. s.Facts.Select(Fact)],
        });

        public IEnumerable<Rule> Rules => dialog.Rules.Select(r => r with
        {
            Id = Name(r.Id),
            Level = number > 0 && r.Level == 0 ? 1 : r.Level,
            Conditions = r.IsOtherwise ? [Same(NeedsALook)] : All(r.Conditions),
            Warn = [.. r.Warn.Select(Name)],
            Give = [.. r.Give.Select(Item)],
            Withhold = [.. r.Withhold.Select(Item)],
            CountsFrom = number == 0 ? r.CountsFrom : null,
            AlsoSaidBy = [.. r.AlsoSaidBy.Select(Name)],
        });

        public IEnumerable<TreatRule> TreatRules => dialog.TreatRules.Where(r => !r.Conditions.IsEmpty).Select(r => r with { Id = Name(r.Id), Conditions = All(r.Conditions) });

        public IEnumerable<AdviceItem> Advice => dialog.Advice.Select(a => a with
        {
            Index = Item(a.Index),
            Id = Name(a.Id),
            OnlyIf = All(a.OnlyIf),
            NeverIf = All(a.NeverIf),
        });

        public IEnumerable<Explanation> Explanations => dialog.Explanations.Select(e => e with
        {
            Index = e.Index + (number * dialog.Explanations.Length),
            Id = Name(e.Id),
            OnlyIf = All(e.OnlyIf),
        });

        public IEnumerable<ImpossiblePair> Impossible => dialog.Impossible.Select(i => i with { One = Same(i.One), Other = Same(i.Other) });

        /// <summary>What every milder row rules out.</summary>
        Condition NeedsALook
        {
            get
            {
                var ruledOut = dialog.Rules.SelectMany(r => r.Conditions).First(c => c.Of.IsNamedFact && dialog.NamedFacts[c.Of.Index].Id == "needs a look");
                return ruledOut with { Values = ruledOut.Values.Complement(2) };
            }
        }

        public string Name(string id) => number == 0 ? id : $"{id}, {number + 1}";

        int Fact(int index) => index + (number * dialog.Facts.Length);

        int Named(int index) => index + (number * dialog.NamedFacts.Length);

        int Item(int index) => index + (number * dialog.Advice.Length);

        ImmutableArray<Condition> All(ImmutableArray<Condition> conditions) => [.. conditions.Select(Same)];

        Condition Same(Condition condition) =>
            condition with { Of = condition.Of with { Index = condition.Of.IsNamedFact ? Named(condition.Of.Index) : Fact(condition.Of.Index) } };
    }
}
