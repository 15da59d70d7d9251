using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Callers;
using EarHelp.Clinic.Incidents;
using EarHelp.Clinic.Staff;
using EarHelp.Content.Demonstrations;
using EarHelp.Content.Examples;
using EarHelp.Triage.Facts;
using NodaTime;

namespace EarHelp.Cli.Demonstrating;

/// <summary>Fills a store with the invented week, through the same code as in real use; the same for the same seed, edition and moment.</summary>
sealed class WeekFilling
{
    /// <summary>Turns after which somebody leaves: the greeting, the form, and two answers.</summary>
    const int TurnsUntilLeft = 4;

    /// <summary>The last minutes of the week are for the desk alone.</summary>
    const int QuietMinutes = 30;

    readonly InventedClinic _clinic;
    readonly InventedWeek _week;
    readonly InventedPeople _people;
    readonly PatientChoice _choice;
    readonly Random _random;
    readonly WeekOfEvents _events;
    readonly InventedStaffRoom _staff;
    readonly WeekOfRequests _requests;
    readonly WeekOfVisits _visits;

    public WeekFilling(InventedClinic clinic, InventedWeek week, InventedPeople people, InventedStaffRoom staff, PatientChoice choice, Random random, Instant end)
    {
        (_clinic, _week, _people, _choice, _random, _staff) = (clinic, week, people, choice, random, staff);
        _events = new WeekOfEvents(clinic.Clock, end);
        _requests = new WeekOfRequests(clinic, new InventedDesk(clinic, people, staff), people, choice, _events, Filled);
        _visits = new WeekOfVisits(clinic, _requests, people, staff, choice, _events, Filled);
    }

    public FilledWeek Filled { get; } = new();

    public async Task FillAsync(CancellationToken cancellation)
    {
        foreach (var row in _week.Visits)
            await _visits.PlanAsync(row, cancellation).ConfigureAwait(false);
        foreach (var row in _week.Requests)
            await _requests.PlanAsync(row, cancellation).ConfigureAwait(false);
        foreach (var row in _week.Calls)
            await PlanCallAsync(row, cancellation).ConfigureAwait(false);
        await PlanOthersAsync(cancellation).ConfigureAwait(false);
        await _events.CarryOutAsync().ConfigureAwait(false);
        _clinic.Clock.Now = _events.End;
        await ReportIncidentsAsync(cancellation).ConfigureAwait(false);
    }

    /// <summary>Those who only show in the figures. They are in one month, so that no figure falls under the least that is shown.</summary>
    async Task PlanOthersAsync(CancellationToken cancellation)
    {
        var span = FigureSpan.Before(_events.End - Duration.FromMinutes(1) * QuietMinutes, _clinic.Edition.Edition.Clinic.Zone);
        foreach (var level in _clinic.Edition.Dialog.Levels.Select(l => l.Rank))
        {
            for (var i = 0; i < _week.Counts[WeekNames.ToldEachLevel]; i++)
                PlanTalk(await _choice.AnyoneAsync(level, span.At(_random), cancellation).ConfigureAwait(false), cancellation);
            for (var i = 0; i < _week.Counts[WeekNames.AnsweredAtEach] && level > 0; i++)
                await _requests.PlanAnsweredAsync(level, span.At(_random), cancellation).ConfigureAwait(false);
        }

        var blocked = _clinic.Edition.Edition.Clinic.CountedAmong is { } among ? _choice.Where(r => IsSo(r, among)) : [];
        PlanTalks(blocked, WeekNames.Blocked, span, p => p, cancellation);
        var anyone = _choice.Where(r => r.Result.Level == _clinic.Edition.Dialog.Levels.Length - 1);
        PlanTalks([.. anyone.Take(1)], WeekNames.LeftHalfWay, span.UntilDayBefore(_events.End), p => p with { MostTurns = TurnsUntilLeft }, cancellation);
        if (await NotSureOfAsync(anyone, cancellation).ConfigureAwait(false) is { } unknown)
            PlanTalks([.. anyone.Take(1)], WeekNames.NotSure, span, p => p with { NotSureOf = unknown }, cancellation);
        foreach (var message in _week.Messages)
        {
            for (var i = 0; i < message.HowOften && !anyone.IsEmpty; i++)
                PlanTalk(new ChosenPatient(anyone[i % anyone.Length], span.At(_random), _choice.NextSeed()) { Message = message.Words }, cancellation);
        }
    }

    void PlanTalks(IReadOnlyList<ExampleRun> runs, string count, FigureSpan span, Func<ChosenPatient, ChosenPatient> with, CancellationToken cancellation)
    {
        for (var i = 0; i < _week.Counts[count] && runs.Count > 0; i++)
            PlanTalk(with(new ChosenPatient(runs[i % runs.Count], span.At(_random), _choice.NextSeed())), cancellation);
    }

    void PlanTalk(ChosenPatient? patient, CancellationToken cancellation)
    {
        if (patient is not null)
            _events.Plan(patient.At, () => HoldAsync(_people.NextIdentifier(), patient, cancellation));
    }

    async Task HoldAsync(string conversation, ChosenPatient patient, CancellationToken cancellation)
    {
        await _clinic.Talk.HoldAsync(conversation, patient, cancellation).ConfigureAwait(false);
        Filled.Conversations++;
    }

    async Task PlanCallAsync(InventedCall row, CancellationToken cancellation)
    {
        if (await _choice.AnyoneAsync(row.Level, _events.End - Duration.FromTimeSpan(row.Ago), cancellation).ConfigureAwait(false) is not { } patient)
            return;
        _events.Plan(patient.At, async () =>
        {
            var (conversation, by) = (_people.NextIdentifier(), _staff.Of(StaffRole.Desk).Id);
            await _clinic.Auditor.AddAsync(by, AuditDeed.BeganForCaller, conversation, cancellation).ConfigureAwait(false);
            await HoldAsync(conversation, row.Ended == WeekNames.Told ? patient : patient with { MostTurns = TurnsUntilLeft }, cancellation).ConfigureAwait(false);
            var followedUp = row.Ended == WeekNames.FollowedUp ? by : null;
            if (followedUp is not null)
                await _clinic.Auditor.AddAsync(by, AuditDeed.FollowedUpCaller, conversation, cancellation).ConfigureAwait(false);
            await _clinic.Store.Callers.PutAsync(new Caller(conversation, by, patient.At, row.Number, followedUp), cancellation).ConfigureAwait(false);
        });
    }

    async Task ReportIncidentsAsync(CancellationToken cancellation)
    {
        foreach (var (row, (conversation, told)) in _week.Incidents.Zip(Filled.Requests))
        {
            var by = _staff.Named(row.By)?.Id ?? Incident.ByPatient;
            if (by != Incident.ByPatient)
                await _clinic.Auditor.AddAsync(by, AuditDeed.ReportedIncident, conversation, cancellation).ConfigureAwait(false);
            var rules = told.Reasons.Select(r => r.Rule).Distinct(StringComparer.Ordinal);
            await _clinic.Store.Incidents.AddAsync(
                new Incident(_people.NextIdentifier(), _clinic.Clock.Now, by, conversation, _clinic.Edition.Edition.Id, [.. rules], row.Words), cancellation).ConfigureAwait(false);
        }
    }

    /// <summary>The first fact after the form that this person may not know.</summary>
    async Task<string?> NotSureOfAsync(IReadOnlyList<ExampleRun> anyone, CancellationToken cancellation)
    {
        if (anyone.Count == 0)
            return null;
        var state = await _choice.TryAsync(new ChosenPatient(anyone[0], _events.End, _choice.NextSeed()) { MostTurns = TurnsUntilLeft }, cancellation).ConfigureAwait(false);
        return state.Pending?.Question.Facts.FirstOrDefault(f => f.OffersNotSure)?.Fact;
    }

    bool IsSo(ExampleRun run, string fact) =>
        _clinic.Edition.Dialog.FindFact(fact) is { Values: FactValues.Named } found
        && run.Example.Answers.Any(a => a.Fact == found && a.MayBe.Only is { } only && only != found.Clear);
}
