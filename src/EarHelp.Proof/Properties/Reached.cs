using EarHelp.Proof.Findings;
using EarHelp.Triage.Diagrams;
using EarHelp.Triage.Rules;

namespace EarHelp.Proof.Properties;

/// <summary>Every rule, question, advice item, explanation, warning, page and destination is reached by some patient.</summary>
static class Reached
{
    public static IEnumerable<Finding> Of(ProofContext proof, Asking asking) =>
        [.. Rules(proof), .. Questions(asking), .. Shown(proof), .. Pages(proof), .. Topics(proof)];

    static IEnumerable<Finding> Rules(ProofContext proof) =>
        from rule in proof.Dialog.Rules
        where proof.Space.And(proof.Space.Possible, proof.Space.Matches[rule.Index]) == Terminal.False
        select new NeverReached("rule", rule.Id, [rule.Spot]);

    static IEnumerable<Finding> Questions(Asking asking) =>
        from screen in asking.Screens.Index()
        where !asking.IsAskedOfAnybody(screen.Index)
        select new NeverReached("question", screen.Item.Id, [screen.Item.Spot]);

    static IEnumerable<Finding> Shown(ProofContext proof)
    {
        var space = proof.Space;
        var notNow = space.Where(space.Roots.Level, rank => rank > 0);
        foreach (var item in proof.Dialog.Advice)
        {
            // At the most urgent level only items without a gate are shown.
            var shown = space.Where(space.Roots.Advice[item.Index]);
            if ((item.HasGate ? space.And(shown, notNow) : shown) == Terminal.False)
                yield return new NeverReached("advice item", item.Id, [item.Spot]);
        }

        foreach (var explanation in proof.Dialog.Explanations.Where(e => space.Where(space.Roots.Explanations[e.Index]) == Terminal.False))
            yield return new NeverReached("explanation", explanation.Id, [explanation.Spot]);
        for (var i = 0; i < proof.Dialog.Warnings.Length; i++)
        {
            if (space.Where(space.Roots.Warnings[i]) == Terminal.False)
                yield return new NeverReached("warning", proof.Dialog.Warnings[i], [.. proof.Dialog.Rules.Where(r => r.Warn.Contains(proof.Dialog.Warnings[i])).Select(r => r.Spot)]);
        }
    }

    static IEnumerable<Finding> Pages(ProofContext proof)
    {
        var space = proof.Space;
        foreach (var level in proof.Dialog.Levels.Where(l => space.Where(space.Roots.Level, rank => rank == l.Rank) == Terminal.False))
            yield return new NeverReached("level", level.Id, [level.Spot]);
        foreach (var place in proof.Dialog.Destinations.Where(d => space.Where(space.Roots.Urgency, n => space.Places[n].Destinations.Contains(d.Index)) == Terminal.False))
            yield return new NeverReached("destination", place.Id, [place.Spot]);
        for (var i = 0; i < space.Roots.TreatDecisions.Length && !proof.Dialog.TreatRules.IsEmpty; i++)
        {
            var hold = space.Roots.TreatDecisions[i].Hold;
            TreatRule[] rows = [.. proof.Dialog.TreatRules.Where(t => t.Hold == hold)];
            if (rows.Length > 0 && space.Where(space.Roots.Treat, end => end == i) == Terminal.False)
                yield return new NeverReached("page of what has to happen first", hold ?? "yes", [.. rows.Select(r => r.Spot)]);
        }
    }

    /// <summary>An emergency that is recognised in what is typed needs words by which it is recognised.</summary>
    static IEnumerable<Finding> Topics(ProofContext proof) =>
        from wording in proof.Edition?.Wordings.Values.OrderBy(w => w.Language, StringComparer.Ordinal).ToArray() ?? []
        from signpost in wording.Signposts
        where signpost.SaidAs.IsEmpty
        select new NeverReached("signpost", signpost.Id, [signpost.Spot]);
}
