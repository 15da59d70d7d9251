using System.Collections.Immutable;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Diagrams;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace EarHelp.Triage.Assessments;

/// <summary>Puts the results of one or two ears together: the more urgent ear decides, and each advice item names its ear.</summary>
static class Combination
{
    public static Assessment Of(Dialog dialog, DialogDiagrams diagrams, List<EarResult> ears)
    {
        var (atMost, atLeast) = (int.MaxValue, int.MaxValue);
        foreach (var ear in ears)
        {
            if (!ear.IsPossible)
                return Impossible(dialog);
            (atMost, atLeast) = (Math.Min(atMost, ear.AtMost), Math.Min(atLeast, ear.AtLeast));
        }

        int? level = atMost == atLeast ? atMost : null;
        var isEarly = atLeast == 0;
        var open = isEarly ? [] : OpenFacts.Of(dialog, ears);
        var rules = MatchedRules.Of(dialog, ears, level);
        return new Assessment(
            level,
            atLeast,
            atMost,
            isEarly ? EarlyPlaces(dialog, diagrams, ears) : Places(diagrams, ears, atMost),
            Treat(diagrams, ears),
            GivenAdvice(dialog, ears, atMost, isEarly),
            Warnings(dialog, ears),
            Explanations(ears),
            rules,
            CountsFrom(dialog, rules),
            open.IsEmpty,
            open,
            true);
    }

    static Assessment Impossible(Dialog dialog) =>
        new(null, dialog.Levels.Length - 1, 0, [], null, [], [], [], [], null, false, [], false);

    static ImmutableArray<int> Places(DialogDiagrams diagrams, List<EarResult> ears, int atMost)
    {
        if (ears.Count == 1 && ears[0].Places.Length == 1)
            return ears[0].Places[0];
        var lists = ears.Where(e => e.AtMost == atMost).SelectMany(e => e.Places).ToArray();
        return lists.Length == 1 || lists.All(l => l.AsSpan().SequenceEqual(lists[0].AsSpan()))
            ? lists[0]
            : [.. lists.SelectMany(l => l).Distinct().OrderBy(d => diagrams.IsAlwaysOpen[d]).ThenBy(d => d)];
    }

    /// <summary>The most urgent level is certain before all is asked: the places of the rows that match for certain.</summary>
    static ImmutableArray<int> EarlyPlaces(Dialog dialog, DialogDiagrams diagrams, List<EarResult> ears)
    {
        var possible = Places(diagrams, ears, 0);
        foreach (var rule in dialog.Rules)
        {
            if (rule.Level != 0 || !Any(ears, e => e.Rules, rule.Index, Certainty.Certain))
                continue;
            ImmutableArray<int> first = [.. rule.Where.Where(possible.Contains)];
            return first.IsEmpty ? possible : first;
        }

        return possible;
    }

    static TreatDecision? Treat(DialogDiagrams diagrams, List<EarResult> ears)
    {
        var strictest = int.MaxValue;
        foreach (var ear in ears)
        {
            if (ear.Treat is not { } treat)
                return null;
            strictest = Math.Min(strictest, treat);
        }

        return diagrams.TreatDecisions[strictest];
    }

    static ImmutableArray<GivenAdvice> GivenAdvice(Dialog dialog, List<EarResult> ears, int atMost, bool isEarly)
    {
        ImmutableArray<GivenAdvice>.Builder? given = null;
        foreach (var item in dialog.Advice)
        {
            if (isEarly && item.HasGate)
                continue;
            foreach (var ear in ears)
            {
                if (!IsShown(item, ear, isEarly) || IsWithheld(item, ears, atMost))
                    continue;
                given ??= ImmutableArray.CreateBuilder<GivenAdvice>();
                given.Add(new GivenAdvice(item.Index, item.Kind, item.About == About.Ear ? ear.Ear : null));
                if (item.About != About.Ear)
                    break;
            }
        }

        return given?.DrainToImmutable() ?? [];
    }

    /// <summary>While either ear's level is too urgent for it, or it is open which ear; about the person, also if the other ear forbids it.</summary>
    static bool IsWithheld(AdviceItem item, List<EarResult> ears, int atMost) =>
        item.Kind == AdviceKind.ToDo
        && ((item.NotWhile is { } rank && (atMost <= rank || ears.Exists(e => e.Ear == Ear.Either)))
            || (item.About != About.Ear && ears.Exists(e => e.Forbidden[item.Index] != Certainty.No)));

    /// <summary>To do: only if certain. To leave alone, get help or protect: if any possible answer calls for it, asked or not.</summary>
    static bool IsShown(AdviceItem item, EarResult ear, bool isEarly) =>
        ear.Advice[item.Index] is Certainty.Certain
        || (ear.Advice[item.Index] is Certainty.Possible && item.Kind != AdviceKind.ToDo && !isEarly);

    static ImmutableArray<string> Warnings(Dialog dialog, List<EarResult> ears)
    {
        ImmutableArray<string>.Builder? certain = null;
        for (var i = 0; i < dialog.Warnings.Length; i++)
        {
            if (Any(ears, e => e.Warnings, i, Certainty.Certain))
                (certain ??= ImmutableArray.CreateBuilder<string>()).Add(dialog.Warnings[i]);
        }

        return certain?.DrainToImmutable() ?? [];
    }

    static ImmutableArray<int> Explanations(List<EarResult> ears)
    {
        ImmutableArray<int>.Builder? certain = null;
        for (var i = 0; i < ears[0].Explanations.Length; i++)
        {
            if (Any(ears, e => e.Explanations, i, Certainty.Certain))
                (certain ??= ImmutableArray.CreateBuilder<int>()).Add(i);
        }

        return certain?.DrainToImmutable() ?? [];
    }

    static int? CountsFrom(Dialog dialog, ImmutableArray<MatchedRule> rules)
    {
        foreach (var rule in rules)
        {
            if (rule.Decides && dialog.Rules[rule.Rule].CountsFrom is { } from)
                return from;
        }

        return null;
    }

    static bool Any(List<EarResult> ears, Func<EarResult, Certainty[]> of, int index, Certainty wanted)
    {
        foreach (var ear in ears)
        {
            if (of(ear)[index] == wanted)
                return true;
        }

        return false;
    }
}
