using EarHelp.Clinic.Auditing;
using EarHelp.Web.Pages;
using EarHelp.Web.Staff;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Identity;

namespace EarHelp.Web.Provider;

/// <summary>Signing in at the clinic's own provider (OpenID Connect, code flow with PKCE).</summary>
public sealed partial class ProviderPages(StaffGate gate, ProviderAccounts accounts, Auditor auditor, IAuthenticationHandlerProvider handlers, ILogger<ProviderPages> log)
{
    internal const string Scheme = "provider";

    public async Task BeginAsync(HttpContext context)
    {
        if (await gate.WordsAsync(context) is not { } words)
            return;
        try
        {
            await context.ChallengeAsync(Scheme, new AuthenticationProperties { RedirectUri = StaffParts.Prefix });
        }
        catch (InvalidOperationException fault)
        {
            LogUnreachable(log, fault.GetBaseException().Message);
            await SendFaultAsync(context, words, "staff provider failed", StatusCodes.Status503ServiceUnavailable);
        }
    }

    /// <summary>The browser comes back from the provider; the handler does the rest and calls one of the two below.</summary>
    public async Task BackAsync(HttpContext context)
    {
        if (await handlers.GetHandlerAsync(context, Scheme) is not IAuthenticationRequestHandler handler || !await handler.HandleRequestAsync())
            context.Response.StatusCode = StatusCodes.Status404NotFound;
    }

    /// <summary>
    /// Who it is has been shown. The page that follows goes on by itself: cookies of staff are not sent with what another site began.
    /// </summary>
    internal async Task TakeAsync(TicketReceivedContext received)
    {
        received.HandleResponse();
        var context = received.HttpContext;
        if (await gate.WordsAsync(context) is not { } words)
            return;
        if (await accounts.FindAsync(received.Principal!, context.RequestAborted) is not { } account)
        {
            await auditor.AddAsync(Actor.Service, AuditDeed.SignInRefused, null, context.RequestAborted);
            await SendFaultAsync(context, words, "staff provider no role", StatusCodes.Status403Forbidden);
            return;
        }

        await auditor.AddAsync(account.Id, AuditDeed.SignedIn, null, context.RequestAborted);
        await context.RequestServices.GetRequiredService<SignInManager<StaffMember>>().SignInAsync(new StaffMember(account), isPersistent: false, Scheme);
        context.Response.Headers["Refresh"] = $"0; url={StaffParts.Prefix}";
        await PageResponse.SendAsync(context, StaffFrame.Write(words, words["staff sign in"], html =>
            html.Element("h1"u8, words["staff sign in"]).Element("p"u8, words.Letter.Text("staff welcome", ("who", account.ShownName)))
                .Markup("<p><a class=\"button\" href=\"/staff\">"u8).Text(words["staff home"]).Markup("</a></p>"u8)));
    }

    internal async Task RefuseAsync(RemoteFailureContext failure)
    {
        failure.HandleResponse();
        LogRefused(log, failure.Failure?.Message);
        await auditor.AddAsync(Actor.Service, AuditDeed.SignInRefused, null, failure.HttpContext.RequestAborted);
        if (await gate.WordsAsync(failure.HttpContext) is { } words)
            await SendFaultAsync(failure.HttpContext, words, "staff provider failed", StatusCodes.Status403Forbidden);
    }

    internal static void WriteWay(Markup.HtmlWriter html, Words words) =>
        html.Markup("<p><a class=\"button\" href=\"/staff/provider\">"u8).Text(words["staff provider sign in"]).Markup("</a></p>"u8);

    static Task SendFaultAsync(HttpContext context, Words words, string fault, int status) =>
        PageResponse.SendAsync(context, StaffFrame.Write(words, words["staff sign in"], html =>
        {
            html.Element("h1"u8, words["staff sign in"]);
            StaffForm.WriteFault(html, words, fault);
            html.Markup("<p><a class=\"button quiet\" href=\"/staff/sign-in\">"u8).Text(words["staff sign in"]).Markup("</a></p>"u8);
        }), status);

    [LoggerMessage(Level = LogLevel.Error, Message = "The clinic's own sign-in cannot be reached, so staff sign in by password or passkey only. {Reason}")]
    static partial void LogUnreachable(ILogger log, string reason);

    [LoggerMessage(Level = LogLevel.Warning, Message = "A sign-in at the clinic's own provider failed. {Reason}")]
    static partial void LogRefused(ILogger log, string? reason);
}
