using EarHelp.Clinic.CheckIns;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Visits;
using EarHelp.Exchange.Calendars;
using EarHelp.Web.Editions;
using EarHelp.Web.Pages;
using EarHelp.Web.Security;
using EarHelp.Web.Turns;
using NodaTime;

namespace EarHelp.Web.AfterVisit;

/// <summary>The plan after a visit, for whoever opened the private link, and its days as a calendar file.</summary>
public sealed class AftercarePages(Talk talk, IVisitStore visits, CheckInAnswers checkIns, ServedEditions editions, TimeProvider clock)
{
    internal const string Address = "/aftercare";

    Instant Now => Instant.FromDateTimeOffset(clock.GetUtcNow());

    public async Task ReadAsync(HttpContext context)
    {
        if (await FindAsync(context) is not var (secret, words, visit))
            return;
        var today = Now.InZone(words.Edition.Clinic.Zone).Date;
        var isLarge = context.Request.Query[AftercarePage.Size] == AftercarePage.Large;
        var asked = editions.Current is { } served ? await checkIns.FindOpenAsync(served.Edition, visit.Conversation, context.RequestAborted) : null;
        await PageResponse.SendAsync(context, AftercarePage.Write(words, visit, asked, today, FormToken.For(secret), isLarge));
    }

    /// <summary>The days on which something else is to be minded, with a title that says nothing about an ear.</summary>
    public async Task CalendarAsync(HttpContext context)
    {
        if (await FindAsync(context) is not var (_, words, visit))
            return;
        var days = AftercarePlan.ByDay(AftercarePlan.Of(words.Edition, visit));
        var identifier = Secret.HashOf("plan:" + visit.Conversation)[..32];
        context.Response.ContentType = "text/calendar; charset=utf-8";
        context.Response.Headers.ContentDisposition = "attachment; filename=\"days.ics\"";
        await context.Response.WriteAsync(new PlanFile(identifier, words["aftercare calendar title"], [.. days.Select(d => d.From)], Now).Write(), context.RequestAborted);
    }

    /// <summary>The visit after which a conversation was opened; null too if its edition plans nothing.</summary>
    internal static async ValueTask<Visit?> FindVisitAsync(IVisitStore visits, OpenConversation conversation, CancellationToken cancellation) =>
        conversation.Edition.Edition.Dialog.Aftercare.IsEmpty ? null : await visits.FindAsync(conversation.Id, cancellation);

    /// <summary>Null after the reader was sent elsewhere: nothing is planned in this browser.</summary>
    async Task<(string Secret, Words Words, Visit Visit)?> FindAsync(HttpContext context)
    {
        if (PatientCookie.Read(context) is { } secret && await talk.FindAsync(secret, context.RequestAborted) is { } conversation)
        {
            if (await FindVisitAsync(visits, conversation, context.RequestAborted) is { } visit)
                return (secret, conversation.Words, visit);
            await PageResponse.GoToAsync(context, "/letter#now");
            return null;
        }

        await PageResponse.GoToAsync(context, "/");
        return null;
    }
}
