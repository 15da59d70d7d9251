using System.Collections.Immutable;
using EarHelp.Content.Patients;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Assessments;
using EarHelp.Triage.Deadlines;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;
using NodaTime;

namespace EarHelp.Cli.Assessing;

/// <summary>Assesses read lines.</summary>
public sealed class LineAssessor(Assessor assessor, Triage.Editions.Clinic clinic, bool isClosed)
{
    readonly Dialog _dialog = assessor.Dialog;
    readonly AboutEar _aboutEar = new(assessor.Dialog);
    readonly PatientAnswers _answers = new(assessor.Dialog, isClosed);
    readonly ClinicCalendar _calendar = new(clinic);

    /// <summary>The assessment, or why there can be no such patient.</summary>
    public (AssessedLine? Line, ImmutableArray<string> Faults) Assess(PatientLine patient)
    {
        ArgumentNullException.ThrowIfNull(patient);
        var (ears, faults) = _answers.Of(patient.Given);
        if (!faults.IsEmpty)
            return (null, faults);
        var result = assessor.Assess(ears);
        if (!result.IsPossible)
            return (null, ["These answers cannot stand together."]);
        var limit = Limit(patient, result, _dialog.Levels[result.Level ?? result.AtMost]);
        return (new AssessedLine(
            patient.Id,
            result,
            result.Level is null ? null : limit,
            [.. result.Destinations.Select(d => _dialog.Destinations[d]).Where(d => CanSee(d, patient.At, limit))],
            Warnings(result),
            Explanations(ears, result),
            [.. result.Rules.Select(Named).Distinct()]), []);
    }

    bool CanSee(Destination destination, Instant at, Instant? limit) =>
        destination.Hours != DestinationHours.Clinic || limit is not { } end || _calendar.FirstVisitBefore(at, end) is not null;

    Instant? Limit(PatientLine patient, Assessment result, Level level)
    {
        if (level.Within is not { } within)
            return null;
        var from = result.CountsFrom is { } date
            ? patient.Given.Where(g => g.Fact.Index == date).Min(g => g.Earliest ?? CountedBack(patient.At, g))
            : patient.At;
        return Deadline.After(Instant.Min(from, patient.At), within, clinic.Zone);
    }

    /// <summary>A number given in place of its date: the earliest moment that it may stand for.</summary>
    Instant CountedBack(Instant at, GivenValue given)
    {
        var most = (int)((FactValues.Numbers)given.Fact.Values).ValueOf(given.MayBe.Greatest);
        return given.Fact.Counted!.Unit == CountUnit.Hours
            ? at - Duration.FromHours(most + 1)
            : clinic.Zone.AtStartOfDay(at.InZone(clinic.Zone).Date.PlusDays(-most)).ToInstant();
    }

    NamedOfEar Named(MatchedRule matched)
    {
        var rule = _dialog.Rules[matched.Rule];
        return new NamedOfEar(rule.Id, _aboutEar.IsSo(rule.Conditions) ? matched.Ear : null);
    }

    ImmutableArray<NamedOfEar> Warnings(Assessment result) =>
    [
        .. result.Warnings.SelectMany(warning => result.Rules
            .Where(m => _dialog.Rules[m.Rule].Warn.Contains(warning))
            .Select(m => new NamedOfEar(warning, Named(m).Ear))
            .DefaultIfEmpty(new NamedOfEar(warning, null))
            .Distinct()),
    ];

    ImmutableArray<NamedOfEar> Explanations(ImmutableArray<EarAnswers> ears, Assessment result)
    {
        var ofEar = ears.Length == 1
            ? ImmutableArray.Create((ears[0].Ear, result.Explanations))
            : [.. ears.Select(e => (e.Ear, assessor.Assess([e]).Explanations))];
        return
        [
            .. result.Explanations.SelectMany(i => _aboutEar.IsSo(_dialog.Explanations[i].OnlyIf)
                ? ofEar.Where(e => e.Item2.Contains(i)).Select(e => new NamedOfEar(_dialog.Explanations[i].Id, e.Item1))
                : [new NamedOfEar(_dialog.Explanations[i].Id, null)]),
        ];
    }
}
