using System.Collections.Immutable;
using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.CheckIns;
using EarHelp.Clinic.Staff;
using EarHelp.Clinic.Times;
using EarHelp.Clinic.Visits;
using EarHelp.Content.Demonstrations;
using EarHelp.Conversation.Replies;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Facts;
using EarHelp.Web.Security;
using EarHelp.Web.Turns;
using NodaTime;

namespace EarHelp.Cli.Demonstrating;

/// <summary>Plans the visits of the week: asked for, booked, recorded, and read about afterwards.</summary>
sealed class WeekOfVisits(InventedClinic clinic, WeekOfRequests requests, InventedPeople people, InventedStaffRoom staff, PatientChoice choice, WeekOfEvents events, FilledWeek filled)
{
    /// <summary>Patients come back to their plan the next morning or so.</summary>
    static readonly Duration ComesBackAfter = Duration.FromMinutes(1) * MinutesUntilBack;

    const int MinutesUntilBack = 900;

    public async Task PlanAsync(InventedVisit row, CancellationToken cancellation)
    {
        if (await choice.WhoMayAskAsync(row.Level, events.End - Duration.FromTimeSpan(row.Ago), cancellation).ConfigureAwait(false) is not { } patient)
        {
            filled.LeftOut.Add(row.Name);
            return;
        }

        requests.Plan(patient, row.Name, [], async (conversation, told) =>
        {
            if (await requests.BookAndAcceptAsync(conversation, told, cancellation).ConfigureAwait(false) is { } booked && booked.End <= events.End)
                events.Plan(booked.End, () => RecordAsync(row, OtherWayRound(row, told), conversation, booked.Start, cancellation));
            else
                filled.LeftOut.Add(row.Name);
        }, cancellation);
    }

    /// <summary>True if the person spoke of one ear and the row has findings of the other one only.</summary>
    static bool OtherWayRound(InventedVisit row, OutcomeTold told) => told.Answers.FirstOrDefault(a => a.Fact == KnownFacts.EarsAffected)?.Value switch
    {
        "left" => row.Left.IsEmpty,
        "right" => row.Right.IsEmpty,
        _ => false,
    };

    async Task RecordAsync(InventedVisit row, bool isOtherWayRound, string asked, Instant at, CancellationToken cancellation)
    {
        ImmutableArray<SeenFinding> findings =
        [
            .. row.Left.Select(f => new SeenFinding(f, isOtherWayRound ? Ear.Right : Ear.Left)),
            .. row.Right.Select(f => new SeenFinding(f, isOtherWayRound ? Ear.Left : Ear.Right)),
            .. row.Person.Select(f => new SeenFinding(f, null)),
        ];
        var edition = clinic.Edition.Edition;
        var by = staff.Of(StaffRole.Clinician);
        var visit = new Visit(people.NextIdentifier(), edition.Id, at, by.ShownName, findings, asked);
        await clinic.Auditor.AddAsync(by.Id, AuditDeed.RecordedVisit, visit.Conversation, cancellation).ConfigureAwait(false);
        var waitsOnThePage = new FollowUp(visit.Conversation, 1, "", Secret.New());
        if (await clinic.Recording.RecordAsync(visit, waitsOnThePage, edition, clinic.Edition.DefaultLanguage, Talk.KeyOfLink(Secret.New()), cancellation).ConfigureAwait(false) is { } fault)
            throw new WrongUseException($"the visit of {row.Name} in {InventedWeek.File} cannot be recorded so: {fault}.");
        filled.Conversations++;
        filled.Visits.Add((visit.Conversation, row.Later is null));
        if (row.Later is { } level)
            await PlanReturnAsync(visit, level, cancellation).ConfigureAwait(false);
    }

    async Task PlanReturnAsync(Visit visit, int level, CancellationToken cancellation)
    {
        var recorded = VisitFacts.Of(clinic.Edition.Edition, visit.Findings, visit.At);
        if (await choice.AfterVisitAsync(level, clinic.Clock.Now + ComesBackAfter, recorded, cancellation).ConfigureAwait(false) is { } patient)
            events.Plan(patient.At, () => clinic.Talk.HoldAsync(visit.Conversation, patient, cancellation));
    }
}
