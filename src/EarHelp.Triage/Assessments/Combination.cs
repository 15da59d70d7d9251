using System.Collections.Immutable;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Asking;
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
        if (ears.Any(e => !e.IsPossible))
            return Impossible(dialog);
        var atMost = ears.Min(e => e.AtMost);
        var atLeast = ears.Min(e => e.AtLeast);
        int? level = atMost == atLeast ? atMost : null;
        var isEarly = atLeast == 0;
        var open = isEarly ? [] : OpenFacts(dialog, ears);
        var rules = MatchedRules(dialog, ears, level);
        return new Assessment(
            level,
            atLeast,
            atMost,
            isEarly ? EarlyPlaces(dialog, diagrams, ears) : Places(diagrams, ears, atMost),
            Treat(diagrams, ears),
            GivenAdvice(dialog, ears, atMost, isEarly),
            [.. dialog.Warnings.Where((_, i) => ears.Any(e => e.Warnings[i] == Certainty.Certain))],
            [.. dialog.Explanations.Select(x => x.Index).Where(i => ears.Any(e => e.Explanations[i] == Certainty.Certain))],
            rules,
            rules.Where(r => r.Decides).Select(r => dialog.Rules[r.Rule].CountsFrom).FirstOrDefault(c => c is not null),
            open.IsEmpty,
            open,
            true);
    }

    static Assessment Impossible(Dialog dialog) =>
        new(null, dialog.Levels.Length - 1, 0, [], null, [], [], [], [], null, false, [], false);

    static ImmutableArray<int> Places(DialogDiagrams diagrams, List<EarResult> ears, int atMost)
    {
        var lists = ears.Where(e => e.AtMost == atMost).SelectMany(e => e.Places).ToArray();
        return lists.Length == 1 || lists.All(l => l.AsSpan().SequenceEqual(lists[0].AsSpan()))
            ? lists[0]
            : [.. lists.SelectMany(l => l).Distinct().OrderBy(d => diagrams.IsAlwaysOpen[d]).ThenBy(d => d)];
    }

    /// <summary>The most urgent level is certain before all is asked: the places of the rows that match for certain.</summary>
    static ImmutableArray<int> EarlyPlaces(Dialog dialog, DialogDiagrams diagrams, List<EarResult> ears)
    {
        var certain = dialog.Rules
            .Where(r => r.Level == 0 && ears.Any(e => e.Rules[r.Index] == Certainty.Certain))
            .ToArray();
        var possible = Places(diagrams, ears, 0);
        if (certain.Length == 0)
            return possible;
        var first = certain[0].Where.Where(possible.Contains).ToImmutableArray();
        return first.IsEmpty ? possible : first;
    }

    static TreatDecision? Treat(DialogDiagrams diagrams, List<EarResult> ears) =>
        ears.All(e => e.Treat is not null) ? diagrams.Roots.TreatDecisions[ears.Min(e => e.Treat!.Value)] : null;

    static ImmutableArray<GivenAdvice> GivenAdvice(Dialog dialog, List<EarResult> ears, int atMost, bool isEarly)
    {
        var given = ImmutableArray.CreateBuilder<GivenAdvice>();
        foreach (var item in dialog.Advice)
        {
            if (isEarly && item.HasGate)
                continue;
            if (item.Kind == AdviceKind.ToDo && item.NotWhile is { } rank && (atMost <= rank || ears.Any(e => e.Ear == Ear.Either)))
                continue;
            var shownFor = ears.Where(e => IsShown(item, e, isEarly)).ToArray();
            if (item.About == About.Ear)
                given.AddRange(shownFor.Select(e => new GivenAdvice(item.Index, item.Kind, e.Ear)));
            else if (shownFor.Length > 0 && (item.Kind != AdviceKind.ToDo || ears.All(e => e.Forbidden[item.Index] == Certainty.No)))
                given.Add(new GivenAdvice(item.Index, item.Kind, null));
        }

        return given.ToImmutable();
    }

    /// <summary>To do: only if certain. To leave alone, get help or protect: if any possible answer calls for it, asked or not.</summary>
    static bool IsShown(AdviceItem item, EarResult ear, bool isEarly) =>
        ear.Advice[item.Index] is Certainty.Certain
        || (ear.Advice[item.Index] is Certainty.Possible && item.Kind != AdviceKind.ToDo && !isEarly);

    static ImmutableArray<MatchedRule> MatchedRules(Dialog dialog, List<EarResult> ears, int? level)
    {
        var certain = All(Certainty.Certain);
        if (level is not null && !certain.Any(r => r.Decides))
            certain.AddRange(All(Certainty.Possible).Where(r => r.Decides));
        return [.. certain.OrderBy(r => dialog.Rules[r.Rule].Level ?? int.MaxValue).ThenBy(r => r.Rule)];

        List<MatchedRule> All(Certainty certainty) =>
        [
            .. dialog.Rules.SelectMany(
                rule => ears
                    .Where(e => e.Rules[rule.Index] == certainty)
                    .Select(e => new MatchedRule(rule.Index, e.Ear, rule.Level is not null && rule.Level == level))),
        ];
    }

    static ImmutableArray<OpenFact> OpenFacts(Dialog dialog, List<EarResult> ears)
    {
        var open = ImmutableArray.CreateBuilder<OpenFact>();
        foreach (var fact in dialog.Facts)
        {
            if (fact.About == About.Person && ears.Any(e => e.Matters[fact.Index]))
                open.Add(new OpenFact(fact.Index, null));
            else if (fact.About == About.Ear)
                open.AddRange(ears.Where(e => e.Matters[fact.Index]).Select(e => new OpenFact(fact.Index, e.Ear)));
        }

        if (dialog.FindFact(ScreenChoice.EarsAffected) is { } which
            && ears.Any(e => !e.IsAsked(which.Index))
            && open.Any(o => o.Ear is not null)
            && !open.Any(o => o.Fact == which.Index))
        {
            open.Insert(open.TakeWhile(o => o.Fact < which.Index).Count(), new OpenFact(which.Index, null));
        }

        return open.ToImmutable();
    }
}
