using EarHelp.Conversation.Keeping;
using EarHelp.Servers.Host;
using EarHelp.Web.Security;
using EarHelp.Web.Serving;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;

namespace EarHelp.Web.Tests.Running;

/// <summary>The real service on a port of its own, with an empty data folder.</summary>
public sealed class RunningService : IAsyncDisposable
{
    /// <summary>Rounds of password hashing that cost a test no time.</summary>
    const int QuickRounds = 10;

    readonly Func<WebApplication> _build;
    readonly string? _ownRoot;
    WebApplication _app;

    RunningService(Func<WebApplication> build, string root, string data, string? ownRoot, CollectedLog log, StringWriter console)
    {
        (_build, _app, Root, Data, _ownRoot, Log, Console) = (build, build(), root, data, ownRoot, log, console);
    }

    /// <summary>What the service printed about itself.</summary>
    public StringWriter Console { get; }

    /// <summary>The folder of the edition; a copy if the test changes it.</summary>
    public string Root { get; }

    public string Data { get; }

    public Uri Address => new(_app.Urls.First(u => !u.Contains("unix", StringComparison.Ordinal)));

    public CollectedLog Log { get; }

    public IServiceProvider Services => _app.Services;

    /// <param name="ownRoot">True: with a copy of the edition that the test may change.</param>
    /// <param name="prepare">Changes the edition before the start.</param>
    /// <param name="fill">Fills the data folder before the start.</param>
    /// <param name="settings">More settings, as on a command line.</param>
    public static async Task<RunningService> StartAsync(
        bool ownRoot = false, Action<IServiceCollection>? configure = null, Action<string>? prepare = null, Action<string>? fill = null, params string[] settings)
    {
        var data = Directory.CreateTempSubdirectory("earhelp-web-").FullName;
        var root = ownRoot ? EditionCopy.Make() : Repository.Root;
        prepare?.Invoke(root);
        fill?.Invoke(data);
        var log = new CollectedLog();
        var console = new StringWriter();
        string[] args = ["--urls", "http://127.0.0.1:0", "--data", data, "--root", root, .. settings];
        WebApplication Build() => ServiceHost.Build(args, services =>
        {
            services.AddLogging(logging => logging.ClearProviders().AddProvider(log));
            services.AddSingleton<TextWriter>(console);
            services.Configure<PasswordHasherOptions>(hasher => hasher.IterationCount = QuickRounds);
            configure?.Invoke(services);
        });
        var service = new RunningService(Build, root, data, ownRoot ? root : null, log, console);
        await service._app.StartAsync();
        return service;
    }

    /// <summary>Ends the service and starts it again on the same data folder, at another address.</summary>
    public async Task StartAgainAsync()
    {
        await _app.StopAsync();
        await _app.DisposeAsync();
        _app = _build();
        await _app.StartAsync();
    }

    public Patient NewPatient() => new(Address);

    /// <summary>The same person, with the cookie of before, after the service was started again.</summary>
    public Patient Again(Patient patient) => new(Address, patient.Cookies);

    /// <summary>The identifier of a person's conversation.</summary>
    public async Task<string> ConversationOfAsync(Patient patient)
    {
        var secret = patient.Cookies.GetCookies(Address)["earhelp"]!.Value;
        return (await Services.GetRequiredService<ITurnStore>().FindByKeyAsync(Secret.HashOf(secret), 0, CancellationToken.None))!;
    }

    /// <summary>A client of the socket in the data folder.</summary>
    public HttpClient Socket() => SocketClient.To(ControlSocket.PathIn(Data));

    public async ValueTask DisposeAsync()
    {
        await _app.StopAsync();
        await _app.DisposeAsync();
        Directory.Delete(Data, recursive: true);
        if (_ownRoot is not null)
            Directory.Delete(_ownRoot, recursive: true);
    }
}
