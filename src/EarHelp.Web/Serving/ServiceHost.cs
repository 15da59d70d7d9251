using System.Net;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using EarHelp.Clinic.Times;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Taking;
using EarHelp.Exchange.Fhir;
using EarHelp.Storage;
using EarHelp.Storage.Backups;
using EarHelp.Web.Bot;
using EarHelp.Web.CheckIns;
using EarHelp.Web.Desk;
using EarHelp.Web.Editions;
using EarHelp.Web.Metrics;
using EarHelp.Web.Pages;
using EarHelp.Web.Provider;
using EarHelp.Web.Security;
using EarHelp.Web.Staff;
using EarHelp.Web.Turns;
using EarHelp.Web.Visits;
using Microsoft.AspNetCore.HttpOverrides;
using Microsoft.AspNetCore.Http.Features;

namespace EarHelp.Web.Serving;

/// <summary>Puts the service together. Nothing is started and no address is taken before it runs.</summary>
public static class ServiceHost
{
    const long LargestRequestBytes = 64 * 1024;
    const int LargestFieldBytes = 32 * 1024;
    const int MostFields = 256;

    /// <param name="configure">For tests: what they put in the place of a part.</param>
    /// <exception cref="SettingsException">A setting cannot be used.</exception>
    /// <exception cref="StoreFailedException">The store cannot be opened, e.g. because another service has it.</exception>
    public static WebApplication Build(string[] args, Action<IServiceCollection>? configure = null)
    {
        var builder = WebApplication.CreateSlimBuilder(new WebApplicationOptions { Args = args, ContentRootPath = AppContext.BaseDirectory });
        builder.Configuration.AddEnvironmentVariables("EARHELP_").AddCommandLine(args);
        builder.WebHost.UseKestrelHttpsConfiguration();
        var settings = ServiceSettings.Read(builder.Configuration);
        MakeDataFolder(settings.Data);
        ConfigureLogging(builder.Logging);
        builder.Services.PostConfigure<LoggerFilterOptions>(LogFloor.Apply);
        ConfigureServer(builder, settings);
        AddParts(builder.Services, settings);
        CheckInParts.Add(builder.Services, MailSetup.Read(builder.Configuration));
        BotChannel.Add(builder.Services, builder.Configuration);
        ProviderParts.Add(builder.Services, builder.Configuration);
        configure?.Invoke(builder.Services);
        var app = builder.Build();
        if (!settings.Proxies.IsEmpty)
            app.UseForwardedHeaders(ForwardedFrom(settings));
        app.UseMiddleware<FrontDoor>();
        app.UseRouting();
        Routes.Map(app);
        BotChannel.Map(app);
        ProviderParts.Map(app);
        return app;
    }

    static void AddParts(IServiceCollection services, ServiceSettings settings)
    {
        services.AddSingleton(settings);
        services.AddSingleton(TimeProvider.System);
        services.AddSingleton<RequestLimits>();
        services.AddSingleton<EmergencyFile>();
        services.AddSingleton<ServedEditions>();
        services.AddSingleton<FaultPages>();
        services.AddSingleton<FormGate>();
        services.AddSingleton<PatientPages>();
        services.AddSingleton<TurnPosts>();
        services.AddSingleton<TurnResponse>();
        services.AddSingleton<LinkPosts>();
        services.AddSingleton<VisitRequests>();
        services.AddSingleton<VisitPages>();
        services.AddSingleton<VisitPosts>();
        services.AddSingleton<TimePages>();
        services.AddSingleton<TimesToOffer>();
        services.AddSingleton<IBusyTimes, BusyFeed>();
        services.AddSingleton(_ => StoreOpening.Open(settings.Data, settings.Store, new StoreOptions { ErasureList = Path.Combine(settings.Data, ErasureList.FileName) }));
        services.AddSingleton<ITurnStore>(parts => parts.GetRequiredService<IStore>());
        services.AddSingleton<IEditionArchive>(parts => parts.GetRequiredService<IStore>());
        services.AddSingleton<IEditionLedger>(parts => parts.GetRequiredService<IStore>());
        services.AddSingleton<IKeptConversations>(parts => parts.GetRequiredService<IStore>());
        services.AddSingleton<IKeptElsewhere>(parts => parts.GetRequiredService<IStore>());
        services.AddSingleton(parts => parts.GetRequiredService<IStore>().Staff);
        services.AddSingleton(parts => parts.GetRequiredService<IStore>().Audit);
        services.AddSingleton<IRequestStore>(parts => new RingingRequests(parts.GetRequiredService<IStore>().Requests, parts.GetRequiredService<DeskBell>()));
        services.AddSingleton(parts => parts.GetRequiredService<IStore>().Visits);
        services.AddSingleton(parts => parts.GetRequiredService<IStore>().Closings);
        services.AddSingleton(parts => parts.GetRequiredService<IStore>().Incidents);
        services.AddSingleton(parts => parts.GetRequiredService<IStore>().Callers);
        services.AddSingleton(parts => parts.GetRequiredService<IStore>().FollowUps);
        services.AddSingleton<ClosedAtOnce>();
        StaffParts.Add(services, settings);
        MetricsDoor.Add(services);
        services.AddSingleton<LedgerInForce>();
        services.AddSingleton<EditionDeeds>();
        services.AddSingleton<Control>();
        services.AddSingleton<RecordExport>();
        services.AddSingleton<EditionControl>();
        services.AddSingleton<BeginGate>();
        services.AddSingleton<Talk>();
        services.AddSingleton<TurnTaking>();
        services.AddSingleton<IEditionShelf>(parts => parts.GetRequiredService<ServedEditions>());
        services.AddRoutingCore();
        services.Configure<FormOptions>(form =>
        {
            form.ValueCountLimit = MostFields;
            form.ValueLengthLimit = LargestFieldBytes;
            form.KeyLengthLimit = 256;
        });
        services.AddHostedService<Doorstep>();
        services.AddHostedService<EditionWatch>();
        services.AddHostedService<FirstEdition>();
        services.AddHostedService<FirstMessageRead>();
        services.AddHostedService<NodeWatch>();
        services.AddHostedService<UnfinishedSweep>();
        services.AddHostedService<RequestSweep>();
        services.AddHostedService<SignatureWatch>();
    }

    /// <summary>Requests are not logged at all: a path could hold a private link.</summary>
    static void ConfigureLogging(ILoggingBuilder logging) => logging
        .AddFilter("Microsoft", LogLevel.Error)
        .AddFilter("System", LogLevel.Warning)
        .AddFilter("EarHelp", LogLevel.Information);

    static void ConfigureServer(WebApplicationBuilder builder, ServiceSettings settings)
    {
        builder.WebHost.UseUrls($"{settings.Urls};http://unix:{ControlSocket.PathIn(settings.Data)};{settings.MetricsUrl?.GetLeftPart(UriPartial.Authority)}".TrimEnd(';'));
        builder.WebHost.ConfigureKestrel(server =>
        {
            server.AddServerHeader = false;
            server.Limits.MaxRequestBodySize = LargestRequestBytes;
            server.Limits.MaxRequestHeadersTotalSize = 16 * 1024;
        });
    }

    static ForwardedHeadersOptions ForwardedFrom(ServiceSettings settings)
    {
        var options = new ForwardedHeadersOptions
        {
            ForwardedHeaders = ForwardedHeaders.XForwardedFor | ForwardedHeaders.XForwardedProto | ForwardedHeaders.XForwardedHost,
        };
        options.KnownIPNetworks.Clear();
        options.KnownProxies.Clear();
        foreach (var proxy in settings.Proxies)
            options.KnownProxies.Add(proxy);
        return options;
    }

    /// <summary>Only its owner may read what is kept.</summary>
    static void MakeDataFolder(string data)
    {
        if (OperatingSystem.IsWindows())
            Directory.CreateDirectory(data);
        else
            Directory.CreateDirectory(data, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
    }
}
