using System.Collections.Concurrent;
using EarHelp.Web.Bot;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Http;
using Microsoft.Bot.Connector;
using Microsoft.Bot.Schema;
using Microsoft.Extensions.DependencyInjection;

namespace EarHelp.Bot.Tests;

public sealed class ReplyConnectorsTests : IAsyncLifetime
{
    readonly ConcurrentQueue<string> _authorizations = new();
    readonly string _tokenFile = Path.GetTempFileName();
    readonly WebApplication _channel = WebApplication.CreateSlimBuilder().Build();
    string _address = string.Empty;

    public async Task InitializeAsync()
    {
        _channel.Urls.Add("http://127.0.0.1:0");
        _channel.MapPost("/v3/conversations/{id}/activities", (HttpContext context) =>
        {
            _authorizations.Enqueue(context.Request.Headers.Authorization.ToString());
            return Results.Json(new { id = "1" });
        });
        await _channel.StartAsync();
        _address = _channel.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First() + "/";
    }

    public async Task DisposeAsync()
    {
        await _channel.DisposeAsync();
        File.Delete(_tokenFile);
    }

    [Fact]
    public async Task A_reply_carries_the_token_that_the_file_holds_when_it_is_sent()
    {
        using var connectors = new ReplyConnectors(new ReplyAddresses([new Uri(_address)]), _tokenFile);

        await SendAsync(connectors, "first");
        await SendAsync(connectors, "renewed");

        Assert.Equal(["Bearer first", "Bearer renewed"], _authorizations);
    }

    [Fact]
    public async Task An_address_that_is_not_listed_gets_no_connection()
    {
        using var connectors = new ReplyConnectors(new ReplyAddresses([new Uri(_address)]), null);

        await Assert.ThrowsAsync<UnauthorizedAccessException>(() => connectors.CreateAsync("https://elsewhere.example/", string.Empty, default));
    }

    /// <summary>As a turn does: the connector is disposed of when the turn ends.</summary>
    async Task SendAsync(ReplyConnectors connectors, string token)
    {
        await File.WriteAllTextAsync(_tokenFile, token + Environment.NewLine);
        using var connector = await connectors.CreateAsync(_address, string.Empty, default);
        await connector.Conversations.SendToConversationAsync("c", new Activity(ActivityTypes.Message, text: "reply"));
    }
}
