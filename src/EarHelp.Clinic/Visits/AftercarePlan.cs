using System.Collections.Immutable;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;
using NodaTime;

namespace EarHelp.Clinic.Visits;

/// <summary>What is to be minded after a visit, from day to day.</summary>
public static class AftercarePlan
{
    /// <summary>In the order in which the edition reads it; what holds for both ears stands once for each.</summary>
    public static ImmutableArray<PlannedStep> Of(Edition edition, Visit visit)
    {
        ArgumentNullException.ThrowIfNull(edition);
        ArgumentNullException.ThrowIfNull(visit);
        var day = visit.At.InZone(edition.Clinic.Zone).Date;
        return [.. edition.Dialog.Aftercare.SelectMany(s => EarsOf(edition.Dialog, s, visit.Findings).Select(ear => new PlannedStep(
            edition.Dialog.Advice[s.Advice].Id, ear, day.PlusDays(s.Days.From), day.PlusDays(s.Days.To))))];
    }

    /// <summary>Stretches of days on which the same is to be minded, in order.</summary>
    public static ImmutableArray<PlannedDays> ByDay(ImmutableArray<PlannedStep> plan)
    {
        var turns = plan.Select(s => s.From).Concat(plan.Select(s => s.To.PlusDays(1))).Distinct().Order().ToList();
        return
        [
            .. turns.Zip(turns.Skip(1), (from, next) => new PlannedDays(from, next.PlusDays(-1), [.. plan.Where(s => s.From <= from && from <= s.To)]))
                .Where(d => !d.Steps.IsEmpty),
        ];
    }

    /// <summary>For an item about the person: null, once. For one about an ear: the ears for which it is planned; if nothing was recorded of an ear, both.</summary>
    static IEnumerable<Ear?> EarsOf(Dialog dialog, AftercareStep step, ImmutableArray<SeenFinding> findings)
    {
        if (dialog.Advice[step.Advice].About != About.Ear)
            return Has(dialog, step, findings) ? [null] : [];
        var seen = findings.Select(f => f.Ear).OfType<Ear>().Distinct().Order().ToList();
        return (seen.Count > 0 ? seen : [Ear.Left, Ear.Right]).Where(ear => Has(dialog, step, findings.Where(f => f.Ear is null || f.Ear == ear))).Cast<Ear?>();
    }

    static bool Has(Dialog dialog, AftercareStep step, IEnumerable<SeenFinding> findings)
    {
        var names = findings.Select(f => f.Finding).ToHashSet(StringComparer.Ordinal);
        return step.IsPlannedFor(i => names.Contains(dialog.Findings[i].Id));
    }
}

/// <param name="Advice">Name of the advice item whose words are read.</param>
/// <param name="Ear">Null: about the person.</param>
/// <param name="From">At the clinic; so is <paramref name="To"/>, which is the last day.</param>
public sealed record PlannedStep(string Advice, Ear? Ear, LocalDate From, LocalDate To);

/// <param name="To">Inside.</param>
public sealed record PlannedDays(LocalDate From, LocalDate To, ImmutableArray<PlannedStep> Steps);
