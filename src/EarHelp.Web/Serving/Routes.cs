using EarHelp.Web.AfterVisit;
using EarHelp.Web.CheckIns;
using EarHelp.Web.Look;
using EarHelp.Web.Metrics;
using EarHelp.Web.Staff;
using EarHelp.Web.Turns;
using EarHelp.Web.Visits;

namespace EarHelp.Web.Serving;

/// <summary>Which address leads where. A GET changes nothing.</summary>
static class Routes
{
    static readonly string[] Reading = ["GET", "HEAD"];

    internal static void Map(WebApplication app)
    {
        var pages = app.Services.GetRequiredService<PatientPages>();
        var turns = app.Services.GetRequiredService<TurnPosts>();
        var links = app.Services.GetRequiredService<LinkPosts>();
        Read("/", pages.StartAsync);
        Read("/letter", pages.LetterAsync);
        Read("/withdrawn", pages.LetterAsync);
        Read("/plan", pages.PlanAsync);
        Read("/about", context => pages.TextAsync(context, "about"));
        Read("/privacy", context => pages.TextAsync(context, "privacy"));
        Read("/accessibility", context => pages.TextAsync(context, "accessibility"));
        Read("/abroad", pages.AbroadAsync);
        Read("/answers", pages.AnswersAsync);
        Read("/start-over", pages.StartOverAsync);
        Read("/left", pages.LeftAsync);
        Read("/back/{secret}", pages.BackAsync);
        Read("/complaints", context => pages.TextAsync(context, "complaints"));
        MapVisits(app);
        CheckInParts.Map(app);
        StaffParts.Map(app);
        app.MapPost("/answer", turns.AnswerAsync);
        app.MapPost("/confirm", turns.ConfirmAsync);
        app.MapPost("/change", turns.ChangeAsync);
        app.MapPost("/ask", turns.AskAsync);
        app.MapPost("/changed", turns.SomethingChangedAsync);
        app.MapPost("/go-on", turns.ResumeAsync);
        app.MapPost("/share", turns.ShareAsync);
        app.MapPost("/start-over", turns.StartOverAsync);
        app.MapPost("/link", links.MakeAsync);
        app.MapPost("/back", links.OpenAsync);
        app.MapPost("/leave", links.LeaveAsync);
        foreach (var file in LookFile.All)
            Read(file.Address, file.SendAsync);
        Health.Map(app);
        MetricsDoor.Map(app);
        ControlSocket.Map(app);

        void Read(string address, RequestDelegate answer) => app.MapMethods(address, Reading, answer);
    }

    static void MapVisits(WebApplication app)
    {
        var pages = app.Services.GetRequiredService<VisitPages>();
        var posts = app.Services.GetRequiredService<VisitPosts>();
        app.MapMethods("/visit", Reading, pages.VisitAsync);
        app.MapMethods("/visit/change", Reading, pages.ChangeAsync);
        app.MapMethods("/visit/withdraw", Reading, pages.WithdrawAsync);
        app.MapMethods("/receipt", Reading, pages.ReceiptAsync);
        var plans = app.Services.GetRequiredService<AftercarePages>();
        app.MapMethods(AftercarePages.Address, Reading, plans.ReadAsync);
        app.MapMethods(AftercarePages.Address + "/calendar", Reading, plans.CalendarAsync);
        var times = app.Services.GetRequiredService<TimePages>();
        app.MapMethods("/visit/times", Reading, times.TimesAsync);
        app.MapMethods("/visit/cancel", Reading, times.CancelPageAsync);
        app.MapMethods("/visit/calendar", Reading, times.CalendarAsync);
        app.MapPost("/visit/hold", times.HoldAsync);
        app.MapPost("/visit/confirm", times.ConfirmAsync);
        app.MapPost("/visit/cancel", times.CancelAsync);
        app.MapPost("/visit/check", posts.CheckAsync);
        app.MapPost("/visit/correct", posts.CorrectAsync);
        app.MapPost("/visit/send", posts.SendAsync);
        app.MapPost("/visit/withdraw", posts.WithdrawAsync);
        app.MapPost("/receipt", posts.OpenReceiptAsync);
    }
}
