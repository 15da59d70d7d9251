using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Taking;
using EarHelp.Web.Bot;
using EarHelp.Web.Metrics;
using EarHelp.Web.Pages;
using EarHelp.Web.Security;
using EarHelp.Web.Systems;

namespace EarHelp.Web.Serving;

/// <summary>
/// Every request passes here first: it gets the headers, is counted against the limits, and whatever goes wrong behind it ends in
/// a page that shows the emergency text.
/// </summary>
public sealed partial class FrontDoor(RequestDelegate next, RequestLimits limits, FaultPages faults, ServiceMeter meter, ServiceSettings settings, ILogger<FrontDoor> log)
{
    public async Task InvokeAsync(HttpContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        ResponseHeaders.AddTo(context);
        if (!ControlSocket.IsRightDoor(context) || !MetricsDoor.IsRightDoor(context, settings))
        {
            await SendAsync(context, StatusCodes.Status404NotFound);
            return;
        }

        if (!ControlSocket.IsAsked(context) && !limits.Allows(context))
        {
            context.Response.Headers.RetryAfter = "60";
            await SendAsync(context, StatusCodes.Status429TooManyRequests);
            return;
        }

        try
        {
            await next(context);
        }
        catch (OperationCanceledException) when (context.RequestAborted.IsCancellationRequested)
        {
            return;
        }
        catch (Exception fault) when (!context.Response.HasStarted)
        {
            await SendFaultAsync(context, fault);
            return;
        }

        var response = context.Response;
        if (response.StatusCode >= StatusCodes.Status400BadRequest && !response.HasStarted && response.ContentLength is null
            && response.ContentType is null && !ControlSocket.IsAsked(context) && context.Request.Path != BotChannel.Path)
            await SendAsync(context, response.StatusCode);
    }

    /// <summary>A page for people, problem details for the clinic's own systems.</summary>
    Task SendAsync(HttpContext context, int status) => SystemApi.IsAsked(context) ? SystemProblem.SendAsync(context, status) : faults.SendAsync(context, status);

    async Task SendFaultAsync(HttpContext context, Exception fault)
    {
        context.Response.Clear();
        ResponseHeaders.AddTo(context);
        switch (fault)
        {
            case BadHttpRequestException bad:
                await SendAsync(context, bad.StatusCode);
                break;
            case InvalidDataException:
                await SendAsync(context, StatusCodes.Status400BadRequest);
                break;
            case StoreFailedException or EditionGoneException when SystemApi.IsAsked(context):
                LogFault(fault.GetType().Name, fault.StackTrace);
                await SendAsync(context, StatusCodes.Status503ServiceUnavailable);
                break;
            case StoreFailedException:
                LogFault(fault.GetType().Name, fault.StackTrace);
                await faults.SendEmergencyAsync(context, isNotSaved: HttpMethods.IsPost(context.Request.Method));
                break;
            case EditionGoneException gone:
                LogGone(log, gone.Message);
                await faults.SendHeldAsync(context);
                break;
            default:
                LogFault(fault.GetType().Name, fault.StackTrace);
                await SendAsync(context, StatusCodes.Status500InternalServerError);
                break;
        }
    }

    /// <summary>The kind and the place of a fault only: its message could hold what a person wrote.</summary>
    [LoggerMessage(Level = LogLevel.Error, Message = "A request failed: {Kind}{NewLine}{Place}")]
    static partial void LogFault(ILogger log, string kind, string newLine, string? place);

    [LoggerMessage(Level = LogLevel.Error, Message = "A conversation cannot go on. {Reason}")]
    static partial void LogGone(ILogger log, string reason);

    void LogFault(string kind, string? place)
    {
        meter.CountFault(kind);
        LogFault(log, kind, Environment.NewLine, place);
    }
}
