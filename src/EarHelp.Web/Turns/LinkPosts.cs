using EarHelp.Web.Pages;
using EarHelp.Web.Security;
using EarHelp.Web.Serving;
using NodaTime;

namespace EarHelp.Web.Turns;

/// <summary>Leaving with a private link, coming back by it, and leaving for good.</summary>
public sealed class LinkPosts(Talk talk, FormGate gate, FaultPages faults, ServiceSettings settings, TimeProvider clock)
{
    public async Task MakeAsync(HttpContext context)
    {
        if (await gate.ReadAsync(context) is not { } sent)
            return;
        if (await talk.FindAsync(sent.Secret, context.RequestAborted) is not { } conversation)
        {
            await faults.SendExpiredAsync(context);
            return;
        }

        var link = Secret.New();
        if (await talk.MakeLinkAsync(conversation, Secret.NewIdentifier(), link, context.RequestAborted) is not TakenTurns.Kept)
        {
            await faults.SendEmergencyAsync(context, isNotSaved: true);
            return;
        }

        var address = $"{context.Request.Scheme}://{context.Request.Host}/back/{link}";
        var until = Instant.FromDateTimeOffset(clock.GetUtcNow() + settings.UnfinishedFor);
        var page = LinkPages.WriteLink(conversation.Words, address, conversation.Words.Letter.Moment(until), FormToken.For(sent.Secret));
        await PageResponse.SendAsync(context, page);
    }

    /// <summary>Swaps a link for a cookie; it works once.</summary>
    public async Task OpenAsync(HttpContext context)
    {
        if (await gate.ReadAsync(context) is not { } sent)
            return;
        var link = sent.Fields["secret"].ToString();
        var secret = Secret.New();
        var opened = Secret.IsWellFormed(link)
            ? await talk.OpenLinkAsync(link, secret, Secret.NewIdentifier(), context.RequestAborted)
            : null;
        if (opened is not TakenTurns.Kept)
        {
            await (opened is TakenTurns.NotSaved ? faults.SendEmergencyAsync(context, isNotSaved: true) : faults.SendExpiredAsync(context));
            return;
        }

        PatientCookie.Write(context, secret, settings.UnfinishedFor);
        await PageResponse.GoToAsync(context, "/letter#now");
    }

    /// <summary>Nothing of the conversation stays in this browser.</summary>
    public async Task LeaveAsync(HttpContext context)
    {
        if (await gate.ReadAsync(context) is null)
            return;
        PatientCookie.Clear(context);
        context.Response.Headers["Clear-Site-Data"] = "\"cache\", \"cookies\", \"storage\"";
        await PageResponse.GoToAsync(context, "/left");
    }
}
