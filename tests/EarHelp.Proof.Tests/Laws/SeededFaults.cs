using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;

namespace EarHelp.Proof.Tests.Laws;

/// <summary>Engines with one fault each, as somebody could well build them.</summary>
static class SeededFaults
{
    /// <summary>Rows met in reading order, the last one wins.</summary>
    public static Engine LeastUrgentRowWins(Dialog dialog)
    {
        var real = Engine.Real(dialog);
        return real with
        {
            Assess = answers => real.Assess(answers) is var result && result.Rules.Select(r => dialog.Rules[r.Rule].Level).OfType<int>().ToArray() is { Length: > 0 } levels
                ? result with { AtLeast = Math.Max(result.AtLeast, levels.Max()) }
                : result,
        };
    }

    public static Engine ForgetsTheLastRow(Dialog dialog) =>
        Engine.Real(dialog with { Rules = [.. dialog.Rules.Where(r => r.Index != dialog.Rules.Length - 2).Select((r, i) => r with { Index = i })] });

    public static Engine WantsTheLastConditionNeverMet(Dialog dialog) =>
        Engine.Real(dialog with { Rules = [.. dialog.Rules.Select(r => r.Conditions.Length < 2 ? r : r with { Conditions = [.. r.Conditions, r.Conditions[^1] with { Values = r.Conditions[^1].Values.Complement(8) }] })] });

    public static Engine TakesTheFirstMember(Dialog dialog) => Engine.Real(dialog).Reading(set => ValueSet.Of(set.Least));

    public static Engine TakesTheLastMember(Dialog dialog) => Engine.Real(dialog).Reading(set => ValueSet.Of(set.Greatest));

    public static Engine LeavesOutTheLastMember(Dialog dialog) =>
        Engine.Real(dialog).Reading(set => set.Only is null ? set.Intersect(ValueSet.Between(0, set.Greatest - 1)) : set);

    public static Engine StopsOnceTheLevelIsSettled(Dialog dialog)
    {
        var real = Engine.Real(dialog);
        return real with { Next = answers => real.Assess(answers).Level is null ? real.Next(answers) : null };
    }

    public static Engine AsksNothingForAdvice(Dialog dialog) =>
        Engine.Real(dialog).Asking(Engine.Real(dialog with { Advice = [.. dialog.Advice.Select(a => a with { OnlyIf = [], NeverIf = [] })], Rules = [.. dialog.Rules.Select(r => r with { Give = [], Withhold = [] })] }));

    public static Engine AsksNothingForTreatment(Dialog dialog) => Engine.Real(dialog).Asking(Engine.Real(dialog with { TreatRules = [] }));
}
