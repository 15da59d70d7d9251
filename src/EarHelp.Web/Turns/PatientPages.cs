using EarHelp.Clinic.Desk;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using EarHelp.Conversation.Replies;
using EarHelp.Web.AfterVisit;
using EarHelp.Web.Desk;
using EarHelp.Web.Editions;
using EarHelp.Web.Pages;
using EarHelp.Web.Security;
using EarHelp.Web.Visits;
using NodaTime;

namespace EarHelp.Web.Turns;

/// <summary>The pages that are only read.</summary>
public sealed class PatientPages(
    Talk talk, VisitRequests requests, IVisitStore visits, ICallers callers, ServedEditions editions, FaultPages faults, Serving.ServiceSettings settings, TimeProvider clock)
{
    Instant Now => Instant.FromDateTimeOffset(clock.GetUtcNow());

    /// <summary>The first page; who has a conversation is brought to it.</summary>
    public async Task StartAsync(HttpContext context)
    {
        if (await FindAsync(context) is not null)
        {
            await PageResponse.GoToAsync(context, "/letter#now");
            return;
        }

        if (editions.Current is not { } served)
        {
            await faults.SendEmergencyAsync(context, isNotSaved: false);
            return;
        }

        if (editions.Withdrawn.AllTriage)
        {
            await PageResponse.SendAsync(context, OffPage.Write(Words.First(served)));
            return;
        }

        var secret = SecretOf(context);
        var page = StartPage.Write(Words.First(served), talk.Opening(served), FormToken.For(secret), Secret.NewIdentifier(), Now);
        await PageResponse.SendAsync(context, page);
    }

    public async Task LetterAsync(HttpContext context)
    {
        if (await FindAsync(context) is not { } conversation)
        {
            await PageResponse.GoToAsync(context, "/");
            return;
        }

        if (await IsOffAsync(context, conversation))
            return;
        var letter = new LetterPage(conversation.Words, conversation.Open, TokenOf(context), Secret.NewIdentifier(), Now);
        await PageResponse.SendAsync(context, letter.Write(
            await talk.HistoryAsync(conversation, context.RequestAborted),
            await CallerMark.FindAsync(context, callers, conversation.Id),
            await AftercarePages.FindVisitAsync(visits, conversation, context.RequestAborted) is not null));
    }

    public async Task PlanAsync(HttpContext context)
    {
        var conversation = await FindAsync(context);
        if (conversation is not null && await IsOffAsync(context, conversation))
            return;
        if (conversation?.Outcome is not { } outcome)
        {
            await PageResponse.GoToAsync(context, conversation is null ? "/" : "/letter#now");
            return;
        }

        var history = await talk.HistoryAsync(conversation, context.RequestAborted);
        var asked = await requests.FindAsync(conversation.Id, context.RequestAborted);
        var visit = asked is { Request.State: RequestState.Waiting } ? InPlan(asked.Request, outcome) : VisitPages.IsOffered(conversation, editions, Now) ? VisitInPlan.Offered : VisitInPlan.None;
        var caller = await CallerMark.FindAsync(context, callers, conversation.Id);
        var isAfterVisit = await AftercarePages.FindVisitAsync(visits, conversation, context.RequestAborted) is not null;
        var page = PlanPage.Write(conversation.Words, conversation.Edition, history, ClosedNow.In(conversation.Edition, outcome, Now)!, visit, isAfterVisit, caller, TokenOf(context), Secret.NewIdentifier(), Now);
        await PageResponse.SendAsync(context, page);
    }

    /// <summary>Who must go for help now is not held up by what the clinic knows.</summary>
    static VisitInPlan InPlan(VisitRequest request, OutcomeTold outcome) => request switch
    {
        _ when !ClinicAnswer.IsNone(request) => VisitInPlan.Answered,
        _ when request.Steps.All(s => s.Kind != DeskStepKind.NotWell) => VisitInPlan.Asked,
        _ => outcome.Rank == 0 ? VisitInPlan.None : VisitInPlan.NotWell,
    };

    /// <summary>Only with a conversation: an answer rests on what was asked in it.</summary>
    public async Task AnswersAsync(HttpContext context)
    {
        if (await FindAsync(context) is not { } conversation)
        {
            await PageResponse.GoToAsync(context, "/");
            return;
        }

        if (await IsOffAsync(context, conversation))
            return;
        var history = await talk.HistoryAsync(conversation, context.RequestAborted);
        var last = history.SelectMany(t => t.Replies).OfType<Conversation.Replies.Reply.Answered>().LastOrDefault();
        await PageResponse.SendAsync(context, AnswersPage.Write(conversation.Words, last, TokenOf(context), Secret.NewIdentifier(), Now));
    }

    public async Task StartOverAsync(HttpContext context)
    {
        if (await FindAsync(context) is { } conversation)
            await PageResponse.SendAsync(context, LinkPages.WriteStartOver(conversation.Words, TokenOf(context), Secret.NewIdentifier()));
        else
            await PageResponse.GoToAsync(context, "/");
    }

    public Task BackAsync(HttpContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        if (!Secret.IsWellFormed(context.Request.RouteValues["secret"] as string))
            return faults.SendAsync(context, StatusCodes.Status404NotFound);
        var link = (string)context.Request.RouteValues["secret"]!;
        return SendAsync(context, words => LinkPages.WriteBack(words, link, FormToken.For(SecretOf(context))));
    }

    public Task LeftAsync(HttpContext context) => SendAsync(context, LinkPages.WriteLeft);

    /// <param name="page">Its name among the pages and its title among the short texts.</param>
    public Task TextAsync(HttpContext context, string page) =>
        SendAsync(context, words => TextPage.Write(words, page, page, token: null));

    public Task AbroadAsync(HttpContext context) => SendAsync(context, words => TextPage.WriteAbroad(words, token: null));

    /// <summary>True after the page was sent that stands in the place of what is withdrawn or was corrected.</summary>
    async Task<bool> IsOffAsync(HttpContext context, OpenConversation conversation)
    {
        if (OffPage.KeyFor(conversation, editions) is not { } key || editions.Current is not { } served)
            return false;
        var history = await talk.HistoryAsync(conversation, context.RequestAborted);
        await PageResponse.SendAsync(context, OffPage.Write(conversation, key, Words.First(served), history, TokenOf(context), Secret.NewIdentifier(), Now));
        return true;
    }

    Task SendAsync(HttpContext context, Func<Words, ReadOnlyMemory<byte>> page) =>
        editions.Current is { } served
            ? PageResponse.SendAsync(context, page(Words.First(served)))
            : faults.SendEmergencyAsync(context, isNotSaved: false);

    async Task<OpenConversation?> FindAsync(HttpContext context) =>
        PatientCookie.Read(context) is { } secret ? await talk.FindAsync(secret, context.RequestAborted) : null;

    string SecretOf(HttpContext context) => PatientCookie.ReadOrNew(context, settings.UnfinishedFor);

    static string TokenOf(HttpContext context) => FormToken.For(PatientCookie.Read(context)!);
}
