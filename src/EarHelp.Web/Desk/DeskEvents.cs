using EarHelp.Clinic.Staff;
using EarHelp.Web.Staff;

namespace EarHelp.Web.Desk;

/// <summary>Tells an open desk when to look again (server-sent events, WHATWG HTML 9.2): at every change of a request, and at least twice a minute.</summary>
public sealed class DeskEvents(StaffGate gate, DeskBell bell, IHostApplicationLifetime service, TimeProvider clock)
{
    /// <summary>Time goes on also when nothing changes, and a conversation may have become more urgent.</summary>
    const int LookAgainSeconds = 30;

    public async Task SendAsync(HttpContext context)
    {
        if (await gate.ReadAsync(context, StaffRole.Desk, StaffRole.Clinician) is null)
            return;
        using var ending = CancellationTokenSource.CreateLinkedTokenSource(context.RequestAborted, service.ApplicationStopping);
        context.Response.ContentType = "text/event-stream";
        context.Response.Headers["X-Accel-Buffering"] = "no";
        try
        {
            await context.Response.WriteAsync(":\n\n", ending.Token);
            do
            {
                var ring = bell.Next;
                await context.Response.Body.FlushAsync(ending.Token);
                await Task.WhenAny(ring, Task.Delay(TimeSpan.FromSeconds(LookAgainSeconds), clock, ending.Token));
                ending.Token.ThrowIfCancellationRequested();
                await context.Response.WriteAsync("event: changed\ndata:\n\n", ending.Token);
            }
            while (await gate.AccountOfAsync(context) is not null);
        }
        catch (OperationCanceledException) when (ending.IsCancellationRequested)
        {
            // The desk was closed, or the service stops.
        }
    }
}
