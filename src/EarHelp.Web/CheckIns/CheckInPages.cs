using EarHelp.Clinic.CheckIns;
using EarHelp.Clinic.Requests;
using EarHelp.Conversation.Turns;
using EarHelp.Web.AfterVisit;
using EarHelp.Web.Editions;
using EarHelp.Web.Pages;
using EarHelp.Web.Security;
using EarHelp.Web.Serving;
using EarHelp.Web.Turns;
using NodaTime;

namespace EarHelp.Web.CheckIns;

/// <summary>The question how it is some days after a visit: opened by the link of a message or from the patient's plan; and stopping the messages.</summary>
public sealed class CheckInPages(Talk talk, CheckInAnswers answers, VisitRequests requests, WorseAfterVisit worse, TimeProvider clock, FormGate gate, ServedEditions editions, FaultPages faults, ServiceSettings settings)
{
    internal const string Address = "/check-in";

    internal const string Opening = "/open-check-in";

    internal const string Stopping = "/stop-messages";

    internal static string LinkAddress(string link) => $"{Address}/{link}";

    internal static string StopAddress(string code) => $"{Stopping}/{code}";

    /// <summary>Opens nothing by itself, and says nothing about anybody: a program that follows links reads only this.</summary>
    public Task LinkAsync(HttpContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        return context.Request.RouteValues["secret"] is string link && Secret.IsWellFormed(link) && editions.Current is { } served
            ? PageResponse.SendAsync(context, CheckInPage.WriteLink(Words.First(served), link, FormToken.For(PatientCookie.ReadOrNew(context, settings.UnfinishedFor))))
            : faults.SendAsync(context, StatusCodes.Status404NotFound);
    }

    public async Task OpenAsync(HttpContext context)
    {
        if (await gate.ReadAsync(context) is not { } sent)
            return;
        var link = sent.Fields[CheckInPage.Link].ToString();
        var secret = Secret.New();
        var opened = Secret.IsWellFormed(link) ? await talk.OpenCheckInAsync(link, secret, Secret.NewIdentifier(), context.RequestAborted) : null;
        if (opened is not TakenTurns.Kept)
        {
            await (opened is TakenTurns.NotSaved ? faults.SendEmergencyAsync(context, isNotSaved: true) : faults.SendExpiredAsync(context));
            return;
        }

        PatientCookie.Write(context, secret, settings.UnfinishedFor);
        await PageResponse.GoToAsync(context, Address);
    }

    /// <summary>Who is not asked now reads the plan.</summary>
    public async Task ReadAsync(HttpContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        if (PatientCookie.Read(context) is not { } secret || await talk.FindAsync(secret, context.RequestAborted) is not { } conversation)
            await PageResponse.GoToAsync(context, "/");
        else if (await FindOpenAsync(conversation, context.RequestAborted) is { } open)
            await PageResponse.SendAsync(context, CheckInPage.WriteQuestion(conversation.Words, open, FormToken.For(secret), Secret.NewIdentifier()));
        else if (await FindBookedAsync(conversation, context.RequestAborted) is { Booked: { } booked })
            await PageResponse.SendAsync(context, CheckInPage.WriteBefore(conversation.Words, booked, FormToken.For(secret), Secret.NewIdentifier()));
        else
            await PageResponse.GoToAsync(context, await IsAskedForAsync(conversation, context.RequestAborted) ? "/visit" : AftercarePages.Address);
    }

    /// <summary>All well ends it; anything else goes on with the questions, which know what was found at the visit.</summary>
    public async Task AnswerAsync(HttpContext context)
    {
        if (await gate.OpenAsync(context) is not var (sent, turn, conversation))
            return;
        var isWell = sent.Fields[CheckInPage.Answer] == CheckInPage.Well;
        if (await FindOpenAsync(conversation, context.RequestAborted) is { } open && !await answers.ReplyAsync(open, isWell, context.RequestAborted))
        {
            await faults.SendExpiredAsync(context);
            return;
        }

        var booked = await FindBookedAsync(conversation, context.RequestAborted);
        if (booked is not null && !await answers.ReplyBeforeVisitAsync(conversation.Id, Secret.New(), isWell, context.RequestAborted))
        {
            await faults.SendExpiredAsync(context);
            return;
        }

        if (booked is not null && !isWell)
            await worse.TellDeskBeforeVisitAsync(booked, turn, context.RequestAborted);
        if (isWell)
            await PageResponse.GoToAsync(context, booked is null ? Address : "/visit");
        else if (conversation.State.HasOutcome && await talk.TakeAsync(conversation, [new Turn(turn, null, new TurnContent.SomethingChanged())], context.RequestAborted) is not TakenTurns.Kept)
            await faults.SendEmergencyAsync(context, isNotSaved: true);
        else
            await PageResponse.GoToAsync(context, "/letter#now");
    }

    public async Task StopPageAsync(HttpContext context)
    {
        if (await FindAskedAsync(context) is var (words, asked))
            await PageResponse.SendAsync(context, CheckInPage.WriteStop(words, asked));
    }

    /// <summary>Without a cookie, because mail programs send it too (RFC 8058): the code can do nothing else.</summary>
    public async Task StopAsync(HttpContext context)
    {
        if (await FindAskedAsync(context) is not var (words, asked))
            return;
        await answers.StopAsync(asked.StopCode, context.RequestAborted);
        await PageResponse.SendAsync(context, CheckInPage.WriteStop(words, asked.Stopped()));
    }

    async ValueTask<OpenCheckIn?> FindOpenAsync(OpenConversation conversation, CancellationToken cancellation) =>
        editions.Current is { } served ? await answers.FindOpenAsync(served.Edition, conversation.Id, cancellation) : null;

    /// <summary>A request with a visit that is yet to come and of which the clinic reminds by now; null: there is none.</summary>
    async ValueTask<VisitRequest?> FindBookedAsync(OpenConversation conversation, CancellationToken cancellation)
    {
        var now = Instant.FromDateTimeOffset(clock.GetUtcNow());
        return await requests.FindAsync(conversation.Id, cancellation) is { Request: { State: RequestState.Waiting } request }
            && editions.Current is { } served && BeforeVisit.Reminder(served.Edition, request)?.IsOpen(now) == true
            ? request
            : null;
    }

    async ValueTask<bool> IsAskedForAsync(OpenConversation conversation, CancellationToken cancellation) =>
        await requests.FindAsync(conversation.Id, cancellation) is { Request.State: RequestState.Waiting };

    /// <summary>Null after it was said that the code stops nothing.</summary>
    async Task<(Words Words, FollowUp Asked)?> FindAskedAsync(HttpContext context)
    {
        if (context.Request.RouteValues["code"] is string code && Secret.IsWellFormed(code) && editions.Current is { } served
            && await answers.FindByCodeAsync(code, context.RequestAborted) is { } asked)
            return (Words.First(served), asked);
        await faults.SendAsync(context, StatusCodes.Status404NotFound);
        return null;
    }
}
