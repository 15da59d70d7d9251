using EarHelp.Proof.Findings;
using EarHelp.Triage.Editions;

namespace EarHelp.Proof.Mutating;

/// <summary>Looks whether the proof of a mutant finds anything that the proof of the original does not.</summary>
static class NoticedBy
{
    public static bool AProperty(Edition original, Mutant mutant)
    {
        var report = EditionProof.Of(original with { Dialog = Pruned(mutant.Dialog) });
        return report.Errors.Any(e => !IsOfTheStep(e, mutant));
    }

    /// <summary>That a dropped question is never asked is the step itself and no finding.</summary>
    static bool IsOfTheStep(Finding finding, Mutant mutant) =>
        mutant.Step == MutationStep.DropQuestion && (finding is ValueOutside or NeverReached { Kind: "question" });

    /// <summary>Without the rows that nobody can meet: a dropped row leaves no trace to be found by.</summary>
    static Dialog Pruned(Dialog dialog) => dialog with
    {
        Rules = [.. dialog.Rules.Where(r => !r.Conditions.Any(c => c.Values.IsEmpty)).Select((r, i) => r with { Index = i })],
        TreatRules = [.. dialog.TreatRules.Where(t => !t.Conditions.Any(c => c.Values.IsEmpty)).Select((t, i) => t with { Index = i })],
    };
}
