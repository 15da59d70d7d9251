using EarHelp.Web.Staff;

namespace EarHelp.Web.Desk;

/// <summary>Puts the desk together.</summary>
static class DeskParts
{
    internal static void Add(IServiceCollection services)
    {
        services.AddSingleton<DeskBell>();
        services.AddSingleton<DeskEvents>();
        services.AddSingleton<RequestDesk>();
        services.AddSingleton<DeskPages>();
        services.AddSingleton<DeskPosts>();
        services.AddSingleton<EscalatedNow>();
        services.AddSingleton<Closing>();
        services.AddSingleton<ClosingPages>();
        services.AddSingleton<DutyPosts>();
        services.AddSingleton<IncidentPages>();
        services.AddSingleton<RecallPages>();
        services.AddSingleton<CallerPages>();
        services.AddSingleton<DeskWatch>();
        services.AddHostedService(parts => parts.GetRequiredService<DeskWatch>());
    }

    internal static void Map(WebApplication app)
    {
        const string Desk = StaffParts.Prefix + "/desk";
        var pages = app.Services.GetRequiredService<DeskPages>();
        app.MapGet(Desk, pages.QueueAsync);
        app.MapGet(Desk + "/events", app.Services.GetRequiredService<DeskEvents>().SendAsync);
        app.MapGet(Desk + "/{id}", pages.RequestAsync);
        var posts = app.Services.GetRequiredService<DeskPosts>();
        app.MapPost(Desk + "/{id}/accept", posts.AcceptAsync);
        app.MapPost(Desk + "/{id}/time", posts.TimeAsync);
        app.MapPost(Desk + "/{id}/telephone", posts.TelephoneAsync);
        app.MapPost(Desk + "/{id}/elsewhere", posts.ElsewhereAsync);
        app.MapPost(Desk + "/{id}/level", posts.LevelAsync);
        app.MapPost(Desk + "/{id}/did-not-come", posts.DidNotComeAsync);
        var incidents = app.Services.GetRequiredService<IncidentPages>();
        app.MapPost(Desk + "/{id}/incident", incidents.ReportAsync);
        app.MapGet(StaffParts.Prefix + "/incidents", incidents.ListAsync);
        app.MapGet("/incident", incidents.PatientFormAsync);
        app.MapPost("/incident", incidents.PatientReportAsync);
        app.MapGet(StaffParts.Prefix + "/recall", app.Services.GetRequiredService<RecallPages>().ReadAsync);
        var callers = app.Services.GetRequiredService<CallerPages>();
        app.MapGet(StaffParts.Prefix + "/callers", callers.ListAsync);
        app.MapPost(StaffParts.Prefix + "/callers", callers.BeginAsync);
        app.MapPost(StaffParts.Prefix + "/callers/visits/{id}", callers.AfterVisitAsync);
        app.MapPost(StaffParts.Prefix + "/callers/end", callers.EndAsync);
        app.MapPost(StaffParts.Prefix + "/callers/{id}/followed-up", callers.FollowUpAsync);
        var closing = app.Services.GetRequiredService<ClosingPages>();
        app.MapGet(StaffParts.Prefix + "/closing", closing.ReadAsync);
        app.MapPost(StaffParts.Prefix + "/closing", closing.CloseAsync);
        app.MapPost(StaffParts.Prefix + "/closing/open", closing.OpenAsync);
        app.MapPost(StaffParts.Prefix + "/duty", app.Services.GetRequiredService<DutyPosts>().ChangeAsync);
    }
}
