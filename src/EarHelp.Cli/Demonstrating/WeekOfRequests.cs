using EarHelp.Content.Demonstrations;
using EarHelp.Conversation.Replies;
using NodaTime;

namespace EarHelp.Cli.Demonstrating;

/// <summary>Plans the requests of the week, and what becomes of each.</summary>
sealed class WeekOfRequests(InventedClinic clinic, InventedDesk desk, InventedPeople people, PatientChoice choice, WeekOfEvents events, FilledWeek filled)
{
    /// <summary>How soon after a step of a patient the next one follows, and what is answered without a limit.</summary>
    static readonly Duration SoonAfter = Duration.FromMinutes(1) * MinutesBetweenSteps;

    const int MinutesBetweenSteps = 45;

    /// <summary>Staff answer when a quarter of the time for it is over.</summary>
    const int PartOfTheTime = 4;

    public async Task PlanAsync(InventedRequest row, CancellationToken cancellation)
    {
        if (await choice.WhoMayAskAsync(row.Level, events.End - Duration.FromTimeSpan(row.Ago), cancellation).ConfigureAwait(false) is { } patient)
            Plan(patient, row.Name, row.Needs, (conversation, told) => GoOnAsync(row, conversation, told, cancellation), cancellation);
        else
            filled.LeftOut.Add(row.Name);
    }

    /// <summary>Somebody without a row of their own, whose request is answered in time.</summary>
    public async Task PlanAnsweredAsync(int level, Instant by, CancellationToken cancellation)
    {
        if (await choice.WhoMayAskAsync(level, by, cancellation).ConfigureAwait(false) is { } patient)
            Plan(patient, null, [], (conversation, told) => BookAndAcceptAsync(conversation, told, cancellation), cancellation);
    }

    /// <summary>The conversation, the request at its end, and what follows.</summary>
    /// <param name="name">Null: one is made up.</param>
    public void Plan(ChosenPatient patient, string? name, IReadOnlyCollection<string> needs, Func<string, OutcomeTold, Task> then, CancellationToken cancellation) =>
        events.Plan(patient.At, async () =>
        {
            var conversation = people.NextIdentifier();
            var told = (await clinic.Talk.HoldAsync(conversation, patient, cancellation).ConfigureAwait(false)).Told!;
            await desk.AskAsync(conversation, told, people.NextContact(name ?? people.NextName(), needs), cancellation).ConfigureAwait(false);
            filled.Requests.Add(new SentRequest(conversation, told));
            await then(conversation, told).ConfigureAwait(false);
        });

    async Task GoOnAsync(InventedRequest row, string conversation, OutcomeTold told, CancellationToken cancellation)
    {
        switch (row.Then)
        {
            case WeekNames.Booked:
                await BookAndAcceptAsync(conversation, told, cancellation).ConfigureAwait(false);
                filled.Booked ??= conversation;
                break;
            case WeekNames.Moved:
                await BookAndAcceptAsync(conversation, told, cancellation).ConfigureAwait(false);
                events.Plan(AnsweredAt(told) + SoonAfter, () => desk.BookAsync(conversation, told, cancellation));
                break;
            case WeekNames.Cancelled:
                await BookAndAcceptAsync(conversation, told, cancellation).ConfigureAwait(false);
                events.Plan(AnsweredAt(told) + SoonAfter, () => desk.CancelAsync(conversation, cancellation));
                break;
            case WeekNames.DidNotCome:
                if (await BookAndAcceptAsync(conversation, told, cancellation).ConfigureAwait(false) is { } booked)
                    events.Plan(booked.End, () => desk.DidNotComeAsync(conversation, booked, cancellation));
                break;
            case WeekNames.Raised or WeekNames.Lowered:
                events.Plan(clinic.Clock.Now + SoonAfter, () => desk.JudgeAsync(conversation, row.Word, row.Then == WeekNames.Raised, row.Note, cancellation));
                break;
            case WeekNames.TakenBack:
                events.Plan(clinic.Clock.Now + SoonAfter, () => desk.TakeBackAsync(conversation, cancellation));
                break;
            default:
                events.Plan(AnsweredAt(told), () => AnswerAsync(row, conversation, told, cancellation));
                break;
        }
    }

    Task AnswerAsync(InventedRequest row, string conversation, OutcomeTold told, CancellationToken cancellation) => row.Then switch
    {
        WeekNames.Offered => desk.OfferAsync(conversation, told, cancellation),
        WeekNames.Telephoned => desk.TelephoneAsync(conversation, row.Note, isReached: true, cancellation),
        WeekNames.NotReached => desk.TelephoneAsync(conversation, row.Note, isReached: false, cancellation),
        WeekNames.SentElsewhere => desk.SendElsewhereAsync(conversation, row.Word, row.Note, cancellation),
        _ => Task.CompletedTask,
    };

    /// <summary>The patient takes a time at once; staff say yes to it, or telephone if there was none.</summary>
    public async Task<Clinic.Times.VisitTime?> BookAndAcceptAsync(string conversation, OutcomeTold told, CancellationToken cancellation)
    {
        var time = await desk.BookAsync(conversation, told, cancellation).ConfigureAwait(false);
        events.Plan(AnsweredAt(told), () => time is null
            ? desk.TelephoneAsync(conversation, "", isReached: true, cancellation)
            : desk.AcceptAsync(conversation, cancellation));
        return time;
    }

    static Instant AnsweredAt(OutcomeTold told) => told.AnswerBy is { } by ? told.DecidedAt + ((by - told.DecidedAt) / PartOfTheTime) : told.DecidedAt + SoonAfter;
}
