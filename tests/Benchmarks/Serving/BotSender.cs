using System.Globalization;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;

namespace Benchmarks.Serving;

/// <summary>A channel that posts messages with replies expected in the answer: each person writes once and then answers question after question.</summary>
sealed class BotSender : ITurnSender
{
    const string First = "\"text\":\"my left ear is blocked\"";
    const string AnAge = "34";

    /// <summary>How many turns a conversation has before the next begins, unless nothing more is asked.</summary>
    const int LongestConversation = 12;

    readonly HttpClient _client = new();
    readonly Uri _endpoint;
    readonly string _name;
    readonly string? _bearer;
    readonly bool _answers;
    string? _answer;
    int _conversation;
    int _turn;
    int _inConversation = LongestConversation;

    /// <param name="answers">False: writes the same again and again, to a bot that asks nothing.</param>
    public BotSender(Uri address, int number, string? bearer, bool answers)
    {
        _endpoint = new Uri(address, "/api/messages");
        _name = string.Create(CultureInfo.InvariantCulture, $"connection-{number}");
        (_bearer, _answers) = (bearer, answers);
    }

    public Task PrepareAsync()
    {
        _turn++;
        if (_inConversation++ == LongestConversation || (_answers && _answer is null))
        {
            (_answer, _inConversation) = (null, 0);
            _conversation++;
        }

        return Task.CompletedTask;
    }

    public async Task SendAsync()
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, _endpoint) { Content = new StringContent(Activity(), Encoding.UTF8, "application/json") };
        if (_bearer is not null)
            request.Headers.Authorization = new AuthenticationHeaderValue("Bearer", _bearer);
        using var response = await _client.SendAsync(request);
        var replies = await response.Content.ReadAsStringAsync();
        if (!response.IsSuccessStatusCode || !replies.Contains("\"activities\"", StringComparison.Ordinal))
            throw new InvalidOperationException($"{(int)response.StatusCode} from the bot: {replies}");
        if (_answers)
            _answer = AnswerTo(replies);
    }

    public void Dispose() => _client.Dispose();

    string Activity() => string.Create(
        CultureInfo.InvariantCulture,
        $$"""
        {"type":"message","id":"{{_name}}-{{_turn}}","channelId":"load","serviceUrl":"{{ChannelToken.ServiceUrl}}","from":{"id":"{{_name}}"},
        "recipient":{"id":"the-bot"},"conversation":{"id":"{{_name}}-{{_conversation}}"},"deliveryMode":"expectReplies",{{_answer ?? First}}}
        """);

    /// <summary>Yes to what was understood, "none of these", the last plain option, an age; null if nothing is asked.</summary>
    static string? AnswerTo(string replies)
    {
        using var read = JsonDocument.Parse(replies);
        var last = read.RootElement.GetProperty("activities").EnumerateArray().Last().GetProperty("channelData");
        switch (last.GetProperty("kind").GetString())
        {
            case "confirm":
                return Value(last, last.GetProperty("understood").EnumerateArray().Select(u => Chosen(u, u.GetProperty("value"))), isNone: false);
            case "ask":
                var question = last.GetProperty("question");
                var isChecklist = question.GetProperty("kind").GetString() == "checklist";
                return Value(question, isChecklist ? [] : question.GetProperty("facts").EnumerateArray().Select(ChosenLast), isChecklist);
            default:
                return null;
        }
    }

    static string Value(JsonElement named, IEnumerable<string> chosen, bool isNone) =>
        $$"""
        "value":{"answers":{{named.GetProperty("name").GetRawText()}},"chosen":[{{string.Join(',', chosen)}}],"none":{{(isNone ? "true" : "false")}}}
        """;

    static string ChosenLast(JsonElement fact)
    {
        var options = fact.GetProperty("options");
        return options.GetArrayLength() == 0 ? Chosen(fact, AnAge) : Chosen(fact, options[options.GetArrayLength() - 1].GetProperty("value"));
    }

    static string Chosen(JsonElement fact, JsonElement value) => Chosen(fact, value.GetRawText());

    static string Chosen(JsonElement fact, string value) => $$"""{"fact":{{fact.GetProperty("fact").GetRawText()}},"value":{{value}}}""";
}
