using EarHelp.Storage;
using EarHelp.Web.Editions;

namespace EarHelp.Web.Serving;

/// <summary>For whatever watches over the service; says nothing about anybody.</summary>
static class Health
{
    internal static void Map(WebApplication app)
    {
        app.MapGet("/health/live", context => SayAsync(context, StatusCodes.Status200OK, "live"));
        app.MapGet("/health/ready", ReadyAsync);
        app.MapGet(ControlSocket.Prefix + "/health", ReadyAsync);
    }

    static async Task ReadyAsync(HttpContext context)
    {
        var isServed = context.RequestServices.GetRequiredService<ServedEditions>().Current is not null;
        var isKept = context.RequestServices.GetRequiredService<IStore>().IsHealthy;
        await SayAsync(
            context,
            isServed && isKept ? StatusCodes.Status200OK : StatusCodes.Status503ServiceUnavailable,
            !isServed ? "no edition" : isKept ? "ready" : "no store");
    }

    static Task SayAsync(HttpContext context, int status, string state)
    {
        context.Response.StatusCode = status;
        context.Response.ContentType = "text/plain; charset=utf-8";
        return context.Response.WriteAsync(state + "\n", context.RequestAborted);
    }
}
