using System.Collections.Immutable;
using EarHelp.Proof.Comparing;
using EarHelp.Proof.Spaces;
using EarHelp.Triage.Diagrams;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Rules;

namespace EarHelp.Proof.Mutating;

/// <summary>What patients get of a dialog.</summary>
/// <param name="Held">Who is not let be treated at once.</param>
sealed record Results(Dialog Dialog, int Level, int Urgency, int Treat, ImmutableArray<string> Holds, int Held, ImmutableArray<int> Advice, ImmutableArray<int> Warnings, ImmutableArray<int> Explanations)
{
    public static Results Of(ProofSpace space, Dialog dialog)
    {
        var roots = space.Roots;
        ImmutableArray<string> holds = [.. roots.TreatDecisions.Select(t => t.Hold ?? "")];
        return new Results(dialog, roots.Level, roots.Urgency, roots.Treat, holds, space.Where(roots.Treat, t => holds[t].Length > 0), roots.Advice, roots.Warnings, roots.Explanations);
    }

    /// <summary>Who is touched, by kind, the most dangerous first. Sets are found only as they are asked for.</summary>
    public IEnumerable<(MutantEffectKind Kind, int Set)> Changes(Results now, ProofSpace space)
    {
        var levels = Differing(space, Level, now.Level, (one, other) => one == other);
        yield return (MutantEffectKind.LowersUrgency, space.Any(levels.Where(p => p.After > p.Before || p.After is null).Select(p => p.Set)));
        foreach (var item in Dialog.Advice)
            yield return (MutantEffectKind.WidensAdvice, item.Kind == AdviceKind.ToDo ? space.Without(Shown(space, now, item), Shown(space, this, item)) : space.Without(Shown(space, this, item), Shown(space, now, item)));
        foreach (var name in Dialog.Warnings)
            yield return (MutantEffectKind.WidensAdvice, space.Without(Warned(space, this, name), Warned(space, now, name)));
        yield return (MutantEffectKind.WidensAdvice, space.Without(Held, now.Held));

        yield return (MutantEffectKind.Other, space.Any(levels.Select(p => p.Set)));
        foreach (var item in Dialog.Advice)
            yield return (MutantEffectKind.Other, Either(space, Shown(space, this, item), Shown(space, now, item)));
        foreach (var name in now.Dialog.Warnings)
            yield return (MutantEffectKind.Other, space.Without(Warned(space, now, name), Warned(space, this, name)));
        yield return (MutantEffectKind.Other, space.Any(Differing(space, Treat, now.Treat, (one, other) => HoldOf(this, one) == HoldOf(now, other)).Select(p => p.Set)));
        foreach (var (before, after) in (IEnumerable<(int, int)>)[(Urgency, now.Urgency), .. Explanations.Zip(now.Explanations)])
            yield return (MutantEffectKind.Other, space.Any(Differing(space, before, after, (one, other) => one == other).Select(p => p.Set)));
    }

    static string HoldOf(Results results, int? decision) => decision is { } known ? results.Holds[known] : "";

    static int Either(ProofSpace space, int one, int other) => space.Builder.Choose(one, space.Builder.Not(other), other);

    static (int? Before, int? After, int Set)[] Differing(ProofSpace space, int before, int after, Func<int?, int?, bool> isSame) =>
        [.. new Pairing(space).Differing(before, after, isSame)];

    static int Shown(ProofSpace space, Results results, AdviceItem item)
    {
        var shown = space.Where(results.Advice[item.Index]);
        return results.Dialog.Advice[item.Index].HasGate ? space.Without(shown, space.Where(results.Level, rank => rank == 0)) : shown;
    }

    static int Warned(ProofSpace space, Results results, string name) =>
        results.Dialog.Warnings.IndexOf(name) is var at and >= 0 ? space.Where(results.Warnings[at]) : Terminal.False;
}
