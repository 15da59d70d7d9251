using EarHelp.Servers.Host;
using EarHelp.Web.Serving;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;

namespace EarHelp.Browser.Running;

/// <summary>The real service with an empty data folder of its own, and one real browser.</summary>
public class Service : IAsyncLifetime, IDisposable
{
    static readonly string[] BrowserFlags =
    [
        "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
        "--disable-component-update", "--disable-sync",
    ];

    readonly StringWriter _console = new();
    readonly string _data = Directory.CreateTempSubdirectory("earhelp-browser-").FullName;
    WebApplication? _app;
    IPlaywright? _playwright;

    public Uri Address { get; private set; } = new("http://localhost");

    public IBrowser Browser { get; private set; } = null!;

    /// <summary>The folder in which all of it is kept.</summary>
    public string Data => _data;

    /// <summary>What the service printed about itself.</summary>
    public string Printed => _console.ToString();

    public T Part<T>()
        where T : notnull => _app!.Services.GetRequiredService<T>();

    /// <summary>More settings, as on a command line.</summary>
    protected virtual IEnumerable<string> Settings => [];

    /// <summary>What stands in the place of a part.</summary>
    protected virtual void Configure(IServiceCollection services)
    {
    }

    public virtual async Task InitializeAsync()
    {
        _app = ServiceHost.Build(
            ["--urls", "http://127.0.0.1:0", "--data", _data, "--root", Folders.Root, "--requests-a-minute", "100000", "--requests-a-second", "100000", .. Settings],
            services =>
            {
                services.AddSingleton<TextWriter>(_console);
                Configure(services);
            });
        await _app.StartAsync();
        var served = _app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First();
        Address = new Uri($"http://localhost:{new Uri(served).Port}");
        _playwright = await Playwright.CreateAsync();
        Browser = await _playwright.Chromium.LaunchAsync(new() { ExecutablePath = Chromium.Program, Headless = true, Args = BrowserFlags });
    }

    public virtual async Task DisposeAsync()
    {
        await Browser.DisposeAsync();
        _playwright?.Dispose();
        if (_app is not null)
        {
            await _app.StopAsync();
            await _app.DisposeAsync();
        }

        Directory.Delete(_data, recursive: true);
        Dispose();
    }

    public void Dispose()
    {
        _console.Dispose();
        GC.SuppressFinalize(this);
    }
}

[CollectionDefinition(Name)]
public sealed class ServiceAndBrowser : ICollectionFixture<Service>
{
    public const string Name = "the service and a browser";
}
