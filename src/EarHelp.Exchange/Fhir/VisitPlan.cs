using EarHelp.Clinic.Visits;
using EarHelp.Triage.Rules;
using Hl7.Fhir.Model;
using NodaTime;
using NodaTime.Text;
using Period = Hl7.Fhir.Model.Period;

namespace EarHelp.Exchange.Fhir;

/// <summary>The plan after a visit, day by day, as the patient has it.</summary>
static class VisitPlan
{
    /// <returns>Null: nothing is to be minded after this visit.</returns>
    public static CarePlan? Write(ExportedVisit exported, ResourceReference subject)
    {
        var (visit, edition, words) = exported;
        var plan = AftercarePlan.Of(edition, visit);
        if (plan.IsEmpty)
            return null;
        return new CarePlan
        {
            Id = exported.ResourceId,
            Status = RequestStatus.Active,
            Intent = CarePlan.CarePlanIntent.Plan,
            Title = words.Text("aftercare heading", ("day", words.Date(visit.At.InZone(edition.Clinic.Zone).Date))),
            Subject = subject,
            Period = Between(plan.Min(s => s.From), plan.Max(s => s.To)),
            CreatedElement = new FhirDateTime(visit.At.ToDateTimeOffset()),
            Author = new ResourceReference { Display = visit.By },
            Activity = [.. plan.Select(s => Activity(exported, s))],
        };
    }

    static CarePlan.ActivityComponent Activity(ExportedVisit exported, PlannedStep step) => new()
    {
        Detail = new()
        {
            Status = CarePlan.CarePlanActivityStatus.Unknown,
            DoNotPerform = exported.Edition.Dialog.Advice.First(a => a.Id == step.Advice).Kind == AdviceKind.LeaveAlone,
            Scheduled = Between(step.From, step.To),
            Description = exported.Words.Headline(step.Advice, step.Ear),
        },
    };

    /// <summary>Whole days at the clinic; FHIR R4 reads the end as inside.</summary>
    static Period Between(LocalDate from, LocalDate to) => new(new FhirDateTime(LocalDatePattern.Iso.Format(from)), new FhirDateTime(LocalDatePattern.Iso.Format(to)));
}
