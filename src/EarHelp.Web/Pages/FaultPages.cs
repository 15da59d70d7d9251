using EarHelp.Triage.Texts;
using EarHelp.Web.Editions;
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
        var (text, hint) = status switch
        {
            StatusCodes.Status404NotFound or StatusCodes.Status405MethodNotAllowed => ("page not found", "page not found hint"),
            StatusCodes.Status429TooManyRequests => ("too many messages", null),
            StatusCodes.Status400BadRequest => ("form not taken", "form not taken hint"),
            StatusCodes.Status413PayloadTooLarge => ("message too large", null),
            _ => ("something broke", (string?)null),
        };
        return PageResponse.SendAsync(context, TextPage.WriteFault(served.Words, text, hint), status);
    }

    /// <summary>The fixed emergency page.</summary>
    /// <param name="alarm">The emergency text to which the lost message led, or null.</param>
    public Task SendEmergencyAsync(
        HttpContext context, bool isNotSaved, Prose? alarm = null, int status = StatusCodes.Status503ServiceUnavailable)
    {
        ArgumentNullException.ThrowIfNull(context);
        var page = editions.Current is { } served ? EmergencyPage.Write(served.Words, alarm, isNotSaved) : emergency.Page;
        return PageResponse.SendAsync(context, page, status);
    }
}
