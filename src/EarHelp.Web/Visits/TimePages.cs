using System.Collections.Immutable;
using System.Globalization;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using EarHelp.Clinic.Times;
using EarHelp.Conversation.Replies;
using EarHelp.Exchange.Calendars;
using EarHelp.Web.Editions;
using EarHelp.Web.Pages;
using EarHelp.Web.Security;
using EarHelp.Web.Turns;
using NodaTime;

namespace EarHelp.Web.Visits;

/// <summary>Choosing, holding, confirming, moving and cancelling the time of a visit that was asked for.</summary>
public sealed class TimePages(
    Talk talk, VisitRequests requests, TimesToOffer times, FormGate gate, ServedEditions editions, FaultPages faults, TimeProvider clock)
{
    Instant Now => Instant.FromDateTimeOffset(clock.GetUtcNow());

    public async Task TimesAsync(HttpContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        if (await FindAsync(context, PatientCookie.Read(context)) is not { } asked)
            return;
        Instant? after = long.TryParse(context.Request.Query[TimesPage.After], NumberStyles.None, CultureInfo.InvariantCulture, out var start)
            && start < Instant.MaxValue.ToUnixTimeMilliseconds() ? Instant.FromUnixTimeMilliseconds(start) : null;
        await SendTimesAsync(context, asked, after, isGone: false);
    }

    /// <summary>Only a time that would be offered now is held.</summary>
    public async Task HoldAsync(HttpContext context)
    {
        if (await OpenAsync(context) is not var (sent, turn, asked))
            return;
        if (!long.TryParse(sent.Fields[TimesPage.Start], NumberStyles.None, CultureInfo.InvariantCulture, out var start))
        {
            await faults.SendAsync(context, StatusCodes.Status400BadRequest);
            return;
        }

        var free = await FreeAsync(asked, null, int.MaxValue, context.RequestAborted);
        var chosen = (free ?? []).Where(t => t.Start.ToUnixTimeMilliseconds() == start).Select(t => (VisitTime?)t).FirstOrDefault();
        var put = chosen is { } time
            ? await requests.HoldAsync(asked.Conversation.Id, turn, time, asked.HeldFor, context.RequestAborted)
            : asked.Kept.Request.HasTaken(turn) ? RequestPut.Kept : RequestPut.TimeTaken;
        await AnswerAsync(context, asked, put);
    }

    public async Task ConfirmAsync(HttpContext context)
    {
        if (await OpenAsync(context) is var (_, turn, asked))
            await AnswerAsync(context, asked, await requests.ConfirmAsync(asked.Conversation.Id, turn, context.RequestAborted));
    }

    public async Task CancelPageAsync(HttpContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        if (await FindKeptAsync(context, PatientCookie.Read(context)) is not { } asked)
            return;
        if (asked.Kept.Request.Booked is null)
            await PageResponse.GoToAsync(context, "/visit");
        else
            await PageResponse.SendAsync(context, RequestPages.WriteCancel(asked.Conversation.Words, FormToken.For(asked.Secret), Secret.NewIdentifier()));
    }

    public async Task CancelAsync(HttpContext context)
    {
        if (await gate.ReadAsync(context) is not { } sent || await FindKeptAsync(context, sent.Secret) is not { } asked)
            return;
        if (sent.Turn is { } turn)
            await AnswerAsync(context, asked, await requests.CancelAsync(asked.Conversation.Id, turn, context.RequestAborted));
        else
            await faults.SendAsync(context, StatusCodes.Status400BadRequest);
    }

    /// <summary>The booked visit as a file for the patient's own calendar, with a title that says nothing about an ear.</summary>
    public async Task CalendarAsync(HttpContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        if (await FindKeptAsync(context, PatientCookie.Read(context)) is not { } asked)
            return;
        if (asked.Kept.Request.Booked is not { } booked)
        {
            await PageResponse.GoToAsync(context, "/visit");
            return;
        }

        var words = asked.Conversation.Words;
        var request = asked.Kept.Request;
        var identifier = Secret.HashOf("calendar:" + request.Conversation)[..32];
        var file = new VisitFile(identifier, request.Version, words["visit calendar title"], words.Edition.Clinic.Address, booked, request.ChangedAt);
        context.Response.ContentType = "text/calendar; charset=utf-8";
        context.Response.Headers.ContentDisposition = "attachment; filename=\"appointment.ics\"";
        await context.Response.WriteAsync(file.Write(), context.RequestAborted);
    }

    Task AnswerAsync(HttpContext context, Asked asked, RequestPut put) => put switch
    {
        RequestPut.Kept => PageResponse.GoToAsync(context, "/visit"),
        RequestPut.Gone => faults.SendExpiredAsync(context),
        _ => SendTimesAsync(context, asked, null, isGone: true),
    };

    async Task SendTimesAsync(HttpContext context, Asked asked, Instant? after, bool isGone)
    {
        var free = await FreeAsync(asked, after, TimesPage.MostShown, context.RequestAborted);
        var page = TimesPage.Write(
            asked.Conversation.Words, free, asked.Limit, ClosedNow.In(asked.Conversation.Edition, asked.Told, Now)!, isGone, after is not null, FormToken.For(asked.Secret), Secret.NewIdentifier(), Now);
        await PageResponse.SendAsync(context, page, isGone ? StatusCodes.Status409Conflict : StatusCodes.Status200OK);
    }

    ValueTask<ImmutableArray<VisitTime>?> FreeAsync(Asked asked, Instant? after, int most, CancellationToken cancellation) =>
        VisitOffer.IsMade(asked.Conversation.Edition, asked.Told!, Now)
            ? times.FindAsync(asked.Conversation.Edition, asked.Conversation.Id, VisitKind.Of(asked.Told!, asked.BeenBefore), asked.Limit, after, most, cancellation)
            : ValueTask.FromResult<ImmutableArray<VisitTime>?>([]);

    async Task<(SentForm Sent, string Turn, Asked Asked)?> OpenAsync(HttpContext context)
    {
        if (await gate.ReadAsync(context) is not { } sent || await FindAsync(context, sent.Secret) is not { } asked)
            return null;
        if (sent.Turn is { } turn)
            return (sent, turn, asked);
        await faults.SendAsync(context, StatusCodes.Status400BadRequest);
        return null;
    }

    /// <summary>For choosing a time: while the danger signs are asked again, or something is withdrawn, there is none to choose.</summary>
    async Task<Asked?> FindAsync(HttpContext context, string? secret)
    {
        if (await FindKeptAsync(context, secret) is not { } asked)
            return null;
        if (asked.Told is not null && OffPage.KeyFor(asked.Conversation, editions) is null)
            return asked;
        await PageResponse.GoToAsync(context, "/letter#now");
        return null;
    }

    /// <summary>The request that stands; without one, the page that says what there is.</summary>
    async Task<Asked?> FindKeptAsync(HttpContext context, string? secret)
    {
        if (secret is null || await talk.FindAsync(secret, context.RequestAborted) is not { } conversation)
        {
            await (HttpMethods.IsPost(context.Request.Method) ? faults.SendExpiredAsync(context) : PageResponse.GoToAsync(context, "/"));
            return null;
        }

        if (await requests.FindAsync(conversation.Id, context.RequestAborted) is { Request.State: RequestState.Waiting } kept)
            return new Asked(secret, conversation, kept);
        await PageResponse.GoToAsync(context, "/visit");
        return null;
    }

    sealed record Asked(string Secret, OpenConversation Conversation, KeptRequest Kept)
    {
        public OutcomeTold? Told => Conversation.Outcome;

        /// <summary>As it was sent or as staff called it, and as it is told now, whichever is earlier.</summary>
        public Instant? Limit => Kept.Request.UrgencyAfter(Told is { } told ? [told] : []).SeenBy;

        /// <summary>Only a clinic with lengths offers a time.</summary>
        public Duration HeldFor => Duration.FromMinutes(Conversation.Edition.Edition.Clinic.Lengths?.HoldMinutes ?? 0);

        public bool BeenBefore => Kept.Contact?.Needs.BeenBefore ?? false;
    }
}
