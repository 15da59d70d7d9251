namespace EarHelp.Web.Figures;

/// <summary>Puts the figures together.</summary>
static class FiguresParts
{
    internal static void Add(IServiceCollection services)
    {
        services.AddSingleton<FiguresCount>();
        services.AddSingleton<FiguresPages>();
    }

    internal static void Map(WebApplication app)
    {
        var pages = app.Services.GetRequiredService<FiguresPages>();
        app.MapGet(FiguresPages.Address, pages.ReadAsync);
        app.MapGet(FiguresPages.Address + ".csv", pages.FileAsync);
    }
}
