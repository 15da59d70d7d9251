using System.Globalization;
using System.Net.Http.Headers;
using System.Text;

namespace Benchmarks.Serving;

/// <summary>A channel that posts messages with replies expected in the answer.</summary>
sealed class BotSender : ITurnSender
{
    /// <summary>How many turns a conversation has before the next begins, as with the page.</summary>
    const int TurnsAConversation = 6;

    readonly HttpClient _client = new();
    readonly Uri _endpoint;
    readonly string _name;
    readonly string? _bearer;
    int _conversation;
    int _turn;

    public BotSender(Uri address, int number, string? bearer)
    {
        _endpoint = new Uri(address, "/api/messages");
        _name = string.Create(CultureInfo.InvariantCulture, $"connection-{number}");
        _bearer = bearer;
    }

    public Task PrepareAsync()
    {
        if (_turn++ % TurnsAConversation == 0)
            _conversation++;
        return Task.CompletedTask;
    }

    public async Task SendAsync()
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, _endpoint) { Content = new StringContent(Activity(), Encoding.UTF8, "application/json") };
        if (_bearer is not null)
            request.Headers.Authorization = new AuthenticationHeaderValue("Bearer", _bearer);
        using var response = await _client.SendAsync(request);
        var answer = await response.Content.ReadAsStringAsync();
        if (!response.IsSuccessStatusCode || !answer.Contains("\"activities\"", StringComparison.Ordinal))
            throw new InvalidOperationException($"{(int)response.StatusCode} from the bot: {answer}");
    }

    public void Dispose() => _client.Dispose();

    string Activity() => string.Create(
        CultureInfo.InvariantCulture,
        $$"""
        {"type":"message","id":"{{_name}}-{{_turn}}","channelId":"load","serviceUrl":"{{ChannelToken.ServiceUrl}}","from":{"id":"{{_name}}"},
        "recipient":{"id":"the-bot"},"conversation":{"id":"{{_name}}-{{_conversation}}"},"deliveryMode":"expectReplies","text":"my left ear is blocked"}
        """);
}
