using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;
using EarHelp.Web.Bot;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.TestHost;
using Microsoft.Bot.Builder;
using Microsoft.Extensions.Configuration;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Time.Testing;

namespace EarHelp.Bot.Tests;

/// <summary>The bot endpoint on a server in memory, with an issuer of our own.</summary>
sealed class ChannelHost : IAsyncDisposable
{
    readonly WebApplication _app;
    readonly string _keysFile;

    ChannelHost(WebApplication app, string keysFile) => (_app, _keysFile, Client) = (app, keysFile, app.GetTestClient());

    public static DateTimeOffset Now { get; } = new(2026, 11, 20, 9, 30, 0, TimeSpan.Zero);

    public HttpClient Client { get; }

    public IServiceProvider Services => _app.Services;

    public static async Task<ChannelHost> StartAsync(Issuer issuer, Action<IServiceCollection> services, params string[] serviceAddresses)
    {
        var keysFile = Path.Combine(Path.GetTempPath(), Path.GetRandomFileName());
        await File.WriteAllTextAsync(keysFile, issuer.KeySet());
        var builder = WebApplication.CreateSlimBuilder();
        builder.WebHost.UseTestServer();
        builder.Configuration.AddInMemoryCollection(Settings(keysFile, serviceAddresses));
        builder.Services.AddSingleton<TimeProvider>(new FakeTimeProvider(Now));
        services(builder.Services);
        BotChannel.Add(builder.Services, builder.Configuration);
        var app = builder.Build();
        BotChannel.Map(app);
        await app.StartAsync();
        return new ChannelHost(app, keysFile);
    }

    public void ReplaceKeys(Issuer issuer)
    {
        File.WriteAllText(_keysFile, issuer.KeySet());
        File.SetLastWriteTimeUtc(_keysFile, Now.UtcDateTime.AddDays(1));
    }

    public async Task<HttpStatusCode> StatusOfAsync(string? token, object? activity = null)
    {
        using var answer = await PostAsync(token, activity ?? SomeActivity.Message("hello"));
        return answer.StatusCode;
    }

    public async Task<HttpResponseMessage> PostAsync(string? token, object activity)
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, BotChannel.Path)
        {
            Content = new StringContent(activity as string ?? JsonSerializer.Serialize(activity), Encoding.UTF8, "application/json"),
        };
        if (token is not null)
            request.Headers.Authorization = AuthenticationHeaderValue.Parse(token);
        return await Client.SendAsync(request);
    }

    public async ValueTask DisposeAsync()
    {
        Client.Dispose();
        await _app.DisposeAsync();
        File.Delete(_keysFile);
    }

    static Dictionary<string, string?> Settings(string keysFile, string[] serviceAddresses)
    {
        var settings = new Dictionary<string, string?>
        {
            ["Bot:Issuer"] = Issuer.Name,
            ["Bot:Audience"] = Issuer.BotId,
            ["Bot:KeysFile"] = keysFile,
        };
        for (var i = 0; i < serviceAddresses.Length; i++)
            settings[$"Bot:ServiceAddresses:{i}"] = serviceAddresses[i];
        return settings;
    }
}
