using EarHelp.Clinic.CheckIns;
using EarHelp.Clinic.Keeping;
using EarHelp.Exchange.Mail;

namespace EarHelp.Web.CheckIns;

/// <summary>Puts together how patients are asked after a visit.</summary>
static class CheckInParts
{
    static readonly string[] Reading = ["GET", "HEAD"];

    /// <param name="mail">Null: no messages are sent.</param>
    internal static void Add(IServiceCollection services, MailSetup? mail)
    {
        services.AddSingleton<CheckInAnswers>();
        services.AddSingleton<WorseAfterVisit>();
        services.AddSingleton<CheckInPages>();
        services.AddSingleton<CheckInWatch>();
        services.AddHostedService(parts => parts.GetRequiredService<CheckInWatch>());
        if (mail is null)
            return;
        services.AddSingleton(mail);
        services.AddSingleton<CheckInMessage>();
        services.AddSingleton<IPost>(parts => new SmtpPost(mail.Server, parts.GetRequiredService<TimeProvider>()));
    }

    internal static void Map(WebApplication app)
    {
        var pages = app.Services.GetRequiredService<CheckInPages>();
        app.MapMethods(CheckInPages.Address, Reading, pages.ReadAsync);
        app.MapPost(CheckInPages.Address, pages.AnswerAsync);
        app.MapMethods(CheckInPages.Address + "/{secret}", Reading, pages.LinkAsync);
        app.MapPost(CheckInPages.Opening, pages.OpenAsync);
        app.MapMethods(CheckInPages.Stopping + "/{code}", Reading, pages.StopPageAsync);
        app.MapPost(CheckInPages.Stopping + "/{code}", pages.StopAsync);
    }
}
