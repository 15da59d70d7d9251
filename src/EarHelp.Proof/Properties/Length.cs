using System.Collections.Immutable;
using EarHelp.Proof.Findings;
using EarHelp.Triage.Diagrams;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;
using EarHelp.Triage.Texts;

namespace EarHelp.Proof.Properties;

/// <summary>
/// At most three screens after the form to the most urgent level, and the bound in the dialog's settings to any outcome. Second wordings,
/// and ways that lead over a fact which is asked gently, are not counted. First it is tried with bounds that hold whatever is answered,
/// "not sure" too. Only where they are not enough are the screens of every patient who is sure added up, to name one who is asked too
/// many; if there is none, the bound itself is the fault, because somebody who is unsure may be.
/// </summary>
static class Length
{
    /// <summary>Screens after the form within which a person is told to call.</summary>
    public const int ScreensToMostUrgent = 3;

    public static IEnumerable<Finding> Of(ProofContext proof, Asking asking) => [.. ToMostUrgent(proof, asking), .. ToAny(proof, asking)];

    /// <summary>The most screens that anybody can be asked, whatever is answered.</summary>
    public static int MostScreens(Asking asking) =>
        Enumerable.Range(0, asking.Screens.Length).Count(asking.IsAskedOfAnybody);

    static IEnumerable<Finding> ToMostUrgent(ProofContext proof, Asking asking)
    {
        var rules = proof.Dialog.Rules.Where(r => r.Level == 0 && !LeadsOverGently(proof.Dialog, r)).ToArray();
        var early = asking.Screens.Take(ScreensToMostUrgent).SelectMany(s => s.Facts)
            .Concat(proof.Dialog.Facts.Where(f => f.AskIn == AskIn.Form).Select(f => f.Index)).ToHashSet();
        var urgent = proof.Space.Any(rules.Select(r => proof.Space.Matches[r.Index]));

        // Once all the facts that the rows speak of are answered, also with "not sure", the level is certain.
        return SpeaksOnlyOf(proof, urgent, early)
            ? []
            : Longer(proof, asking, proof.Space.And(proof.Space.Possible, urgent), ScreensToMostUrgent, ScreensUpTo(proof, asking, urgent), $"\"{proof.Dialog.Levels[0].Id}\"", [.. rules.Select(r => r.Spot)]);
    }

    static IEnumerable<Finding> ToAny(ProofContext proof, Asking asking) =>
        MostScreens(asking) <= proof.Dialog.ScreensAtMost
            ? []
            : Longer(proof, asking, proof.Space.Possible, proof.Dialog.ScreensAtMost, MostScreens(asking), "an outcome", []);

    /// <summary>The bound that holds for everybody is over what is allowed: who shows it, or that only those who are unsure may.</summary>
    static IEnumerable<Finding> Longer(ProofContext proof, Asking asking, int set, int bound, int mostIfUnsure, string to, ImmutableArray<SourceSpot> rows)
    {
        var number = asking.NumberFor(set);
        var longer = proof.Space.Where(number, n => n > bound);
        if (longer == Terminal.False)
        {
            yield return new TooManyScreensIfUnsure(mostIfUnsure, bound, to, rows);
            yield break;
        }

        var most = bound;
        for (var more = longer; more != Terminal.False; more = proof.Space.Where(number, n => n > most))
            most++;
        var (classes, asked) = proof.Smallest.PathIn(longer);
        SourceSpot[] screens = [.. asking.Screens.Where((_, i) => proof.Space.EndOf(asking.AskedOf(i), classes) == Terminal.True).Select(s => s.Spot)];
        yield return new TooManyScreens(most, bound, to, [.. screens.TakeLast(1), .. rows], proof.Smallest.Told(classes, asked), proof.Count(longer));
    }

    /// <summary>Screens up to the last one that the rows of the most urgent level speak of.</summary>
    static int ScreensUpTo(ProofContext proof, Asking asking, int urgent)
    {
        var screens = ScreensToMostUrgent;
        var early = proof.Dialog.Facts.Where(f => f.AskIn == AskIn.Form).Select(f => f.Index).Concat(asking.Screens.Take(screens).SelectMany(s => s.Facts)).ToHashSet();
        while (screens < asking.Screens.Length && !SpeaksOnlyOf(proof, urgent, early))
            early.UnionWith(asking.Screens[screens++].Facts);
        return screens;
    }

    static bool SpeaksOnlyOf(ProofContext proof, int root, HashSet<int> facts)
    {
        var seen = new HashSet<int>();
        return Walk(root);

        bool Walk(int at)
        {
            if (Terminal.Is(at) || !seen.Add(at))
                return true;
            if (!facts.Contains(proof.Space.Builder.Nodes.VariableOf(at)))
                return false;
            foreach (var child in proof.Space.Builder.Nodes.ChildrenOf(at))
            {
                if (!Walk(child))
                    return false;
            }

            return true;
        }
    }

    static bool LeadsOverGently(Dialog dialog, Rule rule) =>
        rule.Conditions.Any(c => !c.Of.IsNamedFact && dialog.AskedGently.Contains(dialog.Facts[c.Of.Index].Id));
}
