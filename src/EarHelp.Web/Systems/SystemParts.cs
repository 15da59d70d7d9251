using EarHelp.Web.Serving;

namespace EarHelp.Web.Systems;

/// <summary>Puts together what the clinic's own systems read by.</summary>
static class SystemParts
{
    internal static void Add(IServiceCollection services)
    {
        services.AddSingleton<SystemAccess>();
        services.AddSingleton<SystemGate>();
        services.AddSingleton<SystemApi>();
        services.AddSingleton<SystemPosts>();
        services.AddSingleton<SystemControl>();
    }

    internal static void Map(WebApplication app)
    {
        app.Services.GetRequiredService<SystemApi>().Map(app);
        var posts = app.Services.GetRequiredService<SystemPosts>();
        app.MapPost(SystemForm.Address, posts.LetReadAsync);
        app.MapPost(SystemForm.Address + "/{id}/end", posts.EndAsync);
        var control = app.Services.GetRequiredService<SystemControl>();
        app.MapGet(ControlSocket.Prefix + "/systems", control.ListAsync);
        app.MapPost(ControlSocket.Prefix + "/systems", control.LetReadAsync);
        app.MapPost(ControlSocket.Prefix + "/systems/{id}/end", control.EndAsync);
    }
}
