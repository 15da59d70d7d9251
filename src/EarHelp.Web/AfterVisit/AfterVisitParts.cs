using EarHelp.Clinic.Visits;
using EarHelp.Web.Serving;
using EarHelp.Web.Staff;

namespace EarHelp.Web.AfterVisit;

/// <summary>Puts together what is recorded of visits.</summary>
static class AfterVisitParts
{
    /// <summary>Every address of the staff's side begins so.</summary>
    internal const string Prefix = StaffParts.Prefix + "/visits";

    internal static void Add(IServiceCollection services)
    {
        services.AddSingleton<VisitRecording>();
        services.AddSingleton<VisitControl>();
        services.AddSingleton<RecordPages>();
        services.AddSingleton<CorrectionPages>();
        services.AddSingleton<AftercarePages>();
        services.AddHostedService<VisitSweep>();
    }

    internal static void Map(WebApplication app)
    {
        var pages = app.Services.GetRequiredService<RecordPages>();
        app.MapGet(Prefix, pages.ListAsync);
        app.MapGet(Prefix + "/new", pages.FormAsync);
        app.MapPost(Prefix, pages.RecordAsync);
        app.MapPost(Prefix + "/{id}/link", pages.LinkAsync);
        var corrections = app.Services.GetRequiredService<CorrectionPages>();
        app.MapGet(Prefix + "/{id}/correct", corrections.FormAsync);
        app.MapPost(Prefix + "/{id}/correct", corrections.CorrectAsync);
    }

    /// <summary>The socket of the command line.</summary>
    internal static void MapControl(WebApplication app)
    {
        var visits = app.Services.GetRequiredService<VisitControl>();
        app.MapGet(ControlSocket.Prefix + "/findings", visits.FindingsAsync);
        app.MapPost(ControlSocket.Prefix + "/visit", visits.RecordAsync);
        app.MapPost(ControlSocket.Prefix + "/visit/{id}/link", visits.LinkAsync);
    }
}
