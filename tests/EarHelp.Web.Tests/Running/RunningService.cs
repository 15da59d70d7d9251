using EarHelp.Web.Serving;
using Microsoft.AspNetCore.Builder;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;

namespace EarHelp.Web.Tests.Running;

/// <summary>The real service on a port of its own, with an empty data folder.</summary>
public sealed class RunningService : IAsyncDisposable
{
    readonly WebApplication _app;
    readonly string? _ownRoot;

    RunningService(WebApplication app, string root, string data, string? ownRoot, CollectedLog log)
    {
        (_app, Root, Data, _ownRoot, Log) = (app, root, data, ownRoot, log);
        Address = new Uri(app.Urls.First(u => !u.Contains("unix", StringComparison.Ordinal)));
    }

    /// <summary>The folder of the edition; a copy if the test changes it.</summary>
    public string Root { get; }

    public string Data { get; }

    public Uri Address { get; }

    public CollectedLog Log { get; }

    public IServiceProvider Services => _app.Services;

    /// <param name="ownRoot">True: with a copy of the edition that the test may change.</param>
    /// <param name="settings">More settings, as on a command line.</param>
    public static async Task<RunningService> StartAsync(
        bool ownRoot = false, Action<IServiceCollection>? configure = null, Action<string>? prepare = null, params string[] settings)
    {
        var data = Directory.CreateTempSubdirectory("earhelp-web-").FullName;
        var root = ownRoot ? CopyOfEdition() : Repository.Root;
        prepare?.Invoke(root);
        var log = new CollectedLog();
        string[] args = ["--urls", "http://127.0.0.1:0", "--data", data, "--root", root, .. settings];
        var app = ServiceHost.Build(args, services =>
        {
            services.AddLogging(logging => logging.ClearProviders().AddProvider(log));
            configure?.Invoke(services);
        });
        await app.StartAsync();
        return new RunningService(app, root, data, ownRoot ? root : null, log);
    }

    public Patient NewPatient() => new(Address);

    public async ValueTask DisposeAsync()
    {
        await _app.StopAsync();
        await _app.DisposeAsync();
        Directory.Delete(Data, recursive: true);
        if (_ownRoot is not null)
            Directory.Delete(_ownRoot, recursive: true);
    }

    static string CopyOfEdition()
    {
        var copy = Directory.CreateTempSubdirectory("earhelp-root-").FullName;
        foreach (var folder in (string[])["dialogs", "content"])
        {
            foreach (var file in Directory.EnumerateFiles(Path.Combine(Repository.Root, folder), "*", SearchOption.AllDirectories))
            {
                var to = Path.Combine(copy, Path.GetRelativePath(Repository.Root, file));
                Directory.CreateDirectory(Path.GetDirectoryName(to)!);
                File.Copy(file, to);
            }
        }

        return copy;
    }
}
