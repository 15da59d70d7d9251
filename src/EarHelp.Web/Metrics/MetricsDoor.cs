using EarHelp.Storage;
using EarHelp.Web.Editions;
using EarHelp.Web.Serving;

namespace EarHelp.Web.Metrics;

/// <summary>Where metrics are read: an address of their own, if the settings name one, and the socket in the data folder. Never where patients are served.</summary>
static class MetricsDoor
{
    internal const string Path = "/metrics";

    internal static void Add(IServiceCollection services)
    {
        services.AddMetrics();
        services.AddSingleton<ServiceMeter>();
        services.AddSingleton<ExpositionText>();
    }

    internal static void Map(WebApplication app)
    {
        // It listens from the start, so that nothing goes uncounted.
        var parts = app.Services;
        parts.GetRequiredService<ExpositionText>();
        parts.GetRequiredService<ServiceMeter>().Watch(parts.GetRequiredService<IStore>(), parts.GetRequiredService<ServedEditions>(), parts.GetRequiredService<TimeProvider>());
        app.MapGet(Path, SendAsync);
        app.MapGet(ControlSocket.Prefix + Path, SendAsync);
    }

    /// <summary>False for a request that came to the address of metrics and asks for anything else, or asks for them anywhere else.</summary>
    internal static bool IsRightDoor(HttpContext context, ServiceSettings settings) =>
        (settings.MetricsUrl is { } url && !ControlSocket.IsAsked(context) && context.Connection.LocalPort == url.Port)
        == context.Request.Path.StartsWithSegments(Path, StringComparison.OrdinalIgnoreCase);

    static async Task SendAsync(HttpContext context)
    {
        var size = await context.RequestServices.GetRequiredService<IStore>().SizeAsync(context.RequestAborted);
        context.Response.ContentType = "text/plain; version=0.0.4; charset=utf-8";
        await context.Response.WriteAsync(context.RequestServices.GetRequiredService<ExpositionText>().Write(size), context.RequestAborted);
    }
}
