using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace EarHelp.Proof.Mutating;

/// <summary>A "never if", an "only if" or a level to wait for is dropped; a question is no longer asked.</summary>
static class GateMutations
{
    public static IEnumerable<Mutant> Of(Dialog dialog) => [.. Advice(dialog), .. Questions(dialog)];

    static IEnumerable<Mutant> Advice(Dialog dialog)
    {
        foreach (var item in dialog.Advice)
        {
            foreach (var never in item.NeverIf)
                yield return Gate($"item \"{item.Id}\": never if \"{RowMutations.NameOf(dialog, never.Of)}: {never.Written}\" dropped", never.Spot, item with { NeverIf = item.NeverIf.Remove(never) });

            // Without any condition an item is for everybody, or for those to whom a row gives it.
            foreach (var only in item.OnlyIf)
                yield return Gate($"item \"{item.Id}\": only if \"{RowMutations.NameOf(dialog, only.Of)}: {only.Written}\" dropped", only.Spot, item with { OnlyIf = item.OnlyIf.Remove(only) });
            if (item.NotWhile is { } rank)
                yield return Gate($"item \"{item.Id}\": not while \"{dialog.Levels[rank].Id}\" dropped", item.Spot, item with { NotWhile = null });
        }

        Mutant Gate(string what, Triage.Texts.SourceSpot spot, AdviceItem item) =>
            new(MutationStep.DropGate, what, spot, dialog with { Advice = dialog.Advice.SetItem(item.Index, item) });
    }

    /// <summary>A fact that is never asked meets no condition; the facts that the program itself knows are asked in any case.</summary>
    static IEnumerable<Mutant> Questions(Dialog dialog) =>
        from fact in dialog.Facts
        where fact.AskIn != AskIn.Form
        let other = dialog.Facts.First(f => f.AppliesWhen.IsEmpty && f != fact)
        let never = new Condition(new FactReference(false, other.Index), ValueSet.Empty, "", fact.Spot)
        select new Mutant(
            MutationStep.DropQuestion, $"question \"{fact.DecidingId}\" dropped", fact.Spot, dialog with { Facts = dialog.Facts.SetItem(fact.Index, fact with { AppliesWhen = [never] }) });
}
