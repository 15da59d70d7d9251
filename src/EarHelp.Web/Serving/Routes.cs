using EarHelp.Web.Look;
using EarHelp.Web.Turns;

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
        app.MapPost("/answer", turns.AnswerAsync);
        app.MapPost("/confirm", turns.ConfirmAsync);
        app.MapPost("/change", turns.ChangeAsync);
        app.MapPost("/ask", turns.AskAsync);
        app.MapPost("/changed", turns.SomethingChangedAsync);
        app.MapPost("/go-on", turns.ResumeAsync);
        app.MapPost("/start-over", turns.StartOverAsync);
        app.MapPost("/link", links.MakeAsync);
        app.MapPost("/back", links.OpenAsync);
        app.MapPost("/leave", links.LeaveAsync);
        foreach (var file in LookFile.All)
            Read(file.Address, file.SendAsync);
        Health.Map(app);
        ControlSocket.Map(app);

        void Read(string address, RequestDelegate answer) => app.MapMethods(address, Reading, answer);
    }
}
