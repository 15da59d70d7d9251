using System.Collections.Immutable;
using EarHelp.Triage.Texts;
using EarHelp.Web.Editions;
using EarHelp.Web.Security;
using EarHelp.Web.Serving;

namespace EarHelp.Web.Pages;

/// <summary>The pages for when something is wrong; each shows the emergency text, whatever else has failed.</summary>
public sealed class FaultPages(ServedEditions editions, EmergencyFile emergency)
{
    public Task SendAsync(HttpContext context, int status)
    {
        ArgumentNullException.ThrowIfNull(context);
        if (editions.Current is not { } served)
            return SendEmergencyAsync(context, isNotSaved: false, status: status);
        return PageResponse.SendAsync(context, TextPage.WriteFault(Words.First(served), NameOf(status)), status);
    }

    /// <summary>The fixed emergency page.</summary>
    /// <param name="alarms">The emergency texts to which the lost message led.</param>
    public Task SendEmergencyAsync(
        HttpContext context, bool isNotSaved, ImmutableArray<Prose> alarms = default, int status = StatusCodes.Status503ServiceUnavailable)
    {
        ArgumentNullException.ThrowIfNull(context);
        var page = editions.Current is { } served ? EmergencyPage.Write(Words.First(served), alarms, isNotSaved) : emergency.Page;
        return PageResponse.SendAsync(context, page, status);
    }

    /// <summary>The conversation is gone, or was never there.</summary>
    public Task SendExpiredAsync(HttpContext context) =>
        editions.Current is { } served
            ? PageResponse.SendAsync(context, TextPage.WriteFault(Words.First(served), new Fault("page not found", "expired")), StatusCodes.Status404NotFound)
            : SendEmergencyAsync(context, isNotSaved: false);

    /// <summary>The conversation is kept but cannot go on; who does not want to wait may leave it and begin another.</summary>
    public Task SendHeldAsync(HttpContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        if (editions.Current is not { } served)
            return SendEmergencyAsync(context, isNotSaved: false);
        var token = PatientCookie.Read(context) is { } secret ? FormToken.For(secret) : null;
        return PageResponse.SendAsync(context, TextPage.WriteHeld(Words.First(served), token), StatusCodes.Status503ServiceUnavailable);
    }

    static Fault NameOf(int status) => status switch
    {
        StatusCodes.Status404NotFound or StatusCodes.Status405MethodNotAllowed => new Fault("page not found", "page not found hint"),
        StatusCodes.Status429TooManyRequests => new Fault("too many messages", "busy"),
        StatusCodes.Status400BadRequest => new Fault("form not taken", "form not taken hint"),
        StatusCodes.Status413PayloadTooLarge => new Fault("message too large", null),
        _ => new Fault("something broke", null),
    };
}
