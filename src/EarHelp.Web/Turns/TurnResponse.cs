using System.Collections.Immutable;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Replies;
using EarHelp.Web.CheckIns;
using EarHelp.Web.Pages;
using EarHelp.Web.Security;
using NodaTime;

namespace EarHelp.Web.Turns;

/// <summary>Answers a form: with the page to read next, or with only what is new for a page that appends.</summary>
public sealed partial class TurnResponse(Talk talk, WorseAfterVisit worse, Editions.ServedEditions editions, FaultPages faults, Serving.ServiceSettings settings, TimeProvider clock, ILogger<TurnResponse> log)
{
    Instant Now => Instant.FromDateTimeOffset(clock.GetUtcNow());

    public async Task SendAsync(HttpContext context, SentForm sent, TakenTurns taken)
    {
        ArgumentNullException.ThrowIfNull(taken);
        ArgumentNullException.ThrowIfNull(sent);
        if (taken is TakenTurns.Kept { Conversation: { Outcome: { } told, Id: var conversation } })
            await TellDeskAsync(conversation, told, context.RequestAborted);
        await AnswerAsync(context, sent, taken);
    }

    /// <summary>The turn is kept, and the desk is told within a minute if it cannot be told now.</summary>
    async Task TellDeskAsync(string conversation, OutcomeTold told, CancellationToken cancellation)
    {
        try
        {
            await worse.TellDeskAsync(conversation, told, cancellation);
        }
        catch (StoreFailedException failure)
        {
            LogLater(log, failure.GetType().Name);
        }
    }

    Task AnswerAsync(HttpContext context, SentForm sent, TakenTurns taken)
    {
        if (taken is TakenTurns.Kept)
            PatientCookie.Write(context, sent.Secret, settings.UnfinishedFor);
        switch (taken)
        {
            case TakenTurns.NotSaved lost:
                return faults.SendEmergencyAsync(context, isNotSaved: true, lost.Alarms);
            case TakenTurns.Kept kept when OffPage.KeyFor(kept.Conversation, editions) is not null:
                return PageResponse.WantsPart(context) ? PageResponse.GoPartAsync(context, "/withdrawn") : PageResponse.GoToAsync(context, "/withdrawn");
            case TakenTurns.Kept kept when IsAnswered(kept):
                return PageResponse.WantsPart(context)
                    ? PageResponse.GoPartAsync(context, "/answers#answer")
                    : PageResponse.GoToAsync(context, "/answers#answer");
            case TakenTurns.Kept kept when PageResponse.WantsPart(context):
                return kept.Conversation.Outcome is null
                    ? SendPartAsync(context, sent, kept)
                    : PageResponse.GoPartAsync(context, "/plan");
            case TakenTurns.Kept kept:
                return PageResponse.GoToAsync(context, kept.Conversation.Outcome is null ? "/letter#now" : "/plan");
            case TakenTurns.Gone:
                return faults.SendExpiredAsync(context);
            default:
                throw new System.Diagnostics.UnreachableException();
        }
    }

    static bool IsAnswered(TakenTurns.Kept kept) => kept.New.Any(t => t.Replies.Any(r => r is Reply.Answered));

    /// <summary>The same question again, with what was put in and what is wrong with it; no turn was taken.</summary>
    public async Task SendFaultsAsync(HttpContext context, SentForm sent, OpenConversation conversation, string turn, FilledForm filled)
    {
        ArgumentNullException.ThrowIfNull(conversation);
        ArgumentNullException.ThrowIfNull(sent);
        var letter = new LetterPage(conversation.Words, conversation.Open, FormToken.For(sent.Secret), turn, Now, filled);
        var page = PageResponse.WantsPart(context)
            ? letter.WritePart([])
            : letter.Write(await talk.HistoryAsync(conversation, context.RequestAborted));
        await PageResponse.SendAsync(context, page, StatusCodes.Status422UnprocessableEntity);
    }

    Task SendPartAsync(HttpContext context, SentForm sent, TakenTurns.Kept kept) => PageResponse.SendAsync(
        context,
        new LetterPage(kept.Conversation.Words, kept.Conversation.Open, FormToken.For(sent.Secret), Secret.NewIdentifier(), Now).WritePart(kept.New));

    [LoggerMessage(Level = LogLevel.Error, Message = "The desk could not be told of a patient who is not well ({Kind}); it is tried again in a minute.")]
    static partial void LogLater(ILogger log, string kind);
}
