using EarHelp.Proof.Properties;
using EarHelp.Proof.Spaces;
using EarHelp.Triage.Diagrams;
using EarHelp.Triage.Rules;

namespace EarHelp.Proof.Comparing;

/// <summary>Who is newly shown, or no longer shown, an item, a warning or an explanation, and who is asked another screen.</summary>
sealed class ShownChanges(ComparedSpaces both)
{
    ProofSpace Old => both.Old.Space;

    ProofSpace New => both.New.Space;

    public IEnumerable<Difference> All() => [.. Advice(), .. Warnings(), .. Questions(), .. Explanations()];

    IEnumerable<Difference> Advice()
    {
        foreach (var id in Old.Dialog.Advice.Concat(New.Dialog.Advice).Select(a => a.Id).Distinct(StringComparer.Ordinal))
        {
            var (before, after) = (Old.Dialog.Advice.FirstOrDefault(a => a.Id == id), New.Dialog.Advice.FirstOrDefault(a => a.Id == id));
            var gained = (after ?? before)!.Kind == AdviceKind.ToDo ? ChangeKind.AdviceWidened : ChangeKind.ProtectionAdded;
            var lost = (before ?? after)!.Kind == AdviceKind.ToDo ? ChangeKind.AdviceNarrowed : ChangeKind.ProtectionLost;
            foreach (var change in Told(id, Shown(Old, before), Shown(New, after), gained, lost))
                yield return change;
        }
    }

    /// <summary>At the most urgent level only items without a gate are shown.</summary>
    static int Shown(ProofSpace space, AdviceItem? item)
    {
        if (item is null)
            return Terminal.False;
        var shown = space.Where(space.Roots.Advice[item.Index]);
        return item.HasGate ? space.And(shown, space.Where(space.Roots.Level, rank => rank > 0)) : shown;
    }

    IEnumerable<Difference> Warnings() =>
        from name in Old.Dialog.Warnings.Union(New.Dialog.Warnings)
        from change in Told(name, Warned(Old, name), Warned(New, name), ChangeKind.WarningAdded, ChangeKind.WarningLost)
        select change;

    static int Warned(ProofSpace space, string name) => space.Dialog.Warnings.IndexOf(name) is var at and >= 0 ? space.Where(space.Roots.Warnings[at]) : Terminal.False;

    IEnumerable<Difference> Explanations() =>
        from name in Old.Dialog.Explanations.Union(New.Dialog.Explanations).Select(e => e.Id).Distinct(StringComparer.Ordinal)
        from change in Told(name, Explained(Old, name), Explained(New, name), ChangeKind.ExplanationChanged, ChangeKind.ExplanationChanged)
        select change;

    static int Explained(ProofSpace space, string name) =>
        space.Dialog.Explanations.FirstOrDefault(e => e.Id == name) is { } found ? space.Where(space.Roots.Explanations[found.Index]) : Terminal.False;

    IEnumerable<Difference> Questions()
    {
        var (before, after) = (new Asking(Old), new Asking(New));
        return
            from id in before.Screens.Concat(after.Screens).Select(s => s.Id).Distinct(StringComparer.Ordinal)
            from change in Told(id, Asked(Old, before, id), Asked(New, after, id), ChangeKind.QuestionAdded, ChangeKind.QuestionLost, "asked of")
            select change;
    }

    static int Asked(ProofSpace space, Asking asking, string screen)
    {
        var at = asking.Screens.ToList().FindIndex(s => s.Id == screen);
        return at < 0 ? Terminal.False : space.And(space.Possible, asking.AskedOf(at));
    }

    IEnumerable<Difference> Told(string name, int before, int after, ChangeKind gained, ChangeKind lost, string verb = "shown to")
    {
        var possible = both.Space.And(Old.Possible, New.Possible);
        if (both.Space.And(possible, both.Space.Without(after, before)) is var more && !both.Count(more).IsZero)
            yield return new Difference(gained, more, $"{name}: {verb} more", null, 0);
        if (both.Space.And(possible, both.Space.Without(before, after)) is var fewer && !both.Count(fewer).IsZero)
            yield return new Difference(lost, fewer, $"{name}: {verb} fewer", null, 0);
    }
}
