using System.Globalization;
using System.Net;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Records;
using EarHelp.Conversation.Taking;
using EarHelp.Conversation.Withdrawing;
using EarHelp.Storage.Tests.Fakes;
using EarHelp.Web.Bot;
using EarHelp.Web.Metrics;
using Microsoft.Bot.Builder;
using Microsoft.Bot.Schema;
using Microsoft.Extensions.DependencyInjection;
using Newtonsoft.Json.Linq;

namespace EarHelp.Bot.Tests;

public sealed class ConversationTests : IAsyncLifetime, IDisposable
{
    static readonly Dictionary<string, string> Swimmer = new()
    {
        ["about whom"] = "me",
        ["age"] = "41",
        ["where now"] = "near the clinic",
        ["ears affected"] = "left",
    };

    readonly Issuer _issuer = new("key 1");
    readonly CollectingTurnStore _store = new();
    ChannelHost _host = null!;

    public async Task InitializeAsync() => _host = await ChannelHost.StartAsync(
        _issuer,
        services => services.AddLogging().AddMetrics().AddSingleton<ServiceMeter>().AddSingleton<ITurnStore>(_store).AddSingleton<IEditionShelf, ShippedEdition>().AddSingleton<TurnTaking>(),
        "https://channel.example/api");

    public Task DisposeAsync() => _host.DisposeAsync().AsTask();

    public void Dispose() => _issuer.Dispose();

    [Fact]
    public async Task A_program_that_reads_only_channel_data_reaches_an_outcome()
    {
        var replies = await new PatientByProgram(Swimmer).TalkAsync(ByChannelAsync);

        var told = JsonDocument.Parse(replies[^1]).RootElement.GetProperty("told");
        Assert.NotEmpty(told.GetProperty("level").GetString()!);
        Assert.NotEmpty(told.GetProperty("destinations").EnumerateArray());
    }

    [Fact]
    public async Task A_channel_is_told_what_is_withdrawn_and_goes_on_when_it_is_lifted()
    {
        var shelf = (ShippedEdition)_host.Services.GetRequiredService<IEditionShelf>();
        shelf.Withdrawn = Withdrawals.Everything;
        var off = await ByChannelAsync("turn 1", new JsonObject { ["begin"] = "en" });
        shelf.Withdrawn = Withdrawals.None;
        var on = await ByChannelAsync("turn 2", new JsonObject { ["goOn"] = true });

        Assert.Equal("withdrawn", Assert.Single(off).GetProperty("text").GetString());
        Assert.Equal("ask", on[^1].GetProperty("kind").GetString());
    }

    [Fact]
    public async Task The_pages_adapter_gives_the_same_typed_replies_as_a_channel()
    {
        var byChannel = await new PatientByProgram(Swimmer).TalkAsync(ByChannelAsync);

        var inProcess = await new PatientByProgram(Swimmer).TalkAsync(InProcessAsync);

        Assert.Equal(byChannel, inProcess);
    }

    [Fact]
    public async Task A_decimal_comma_changes_nothing()
    {
        var plain = await new PatientByProgram(Swimmer).TalkAsync(InProcessAsync);
        var comma = (CultureInfo)CultureInfo.InvariantCulture.Clone();
        comma.NumberFormat.NumberDecimalSeparator = ",";
        comma.NumberFormat.NumberGroupSeparator = ".";
        comma.NumberFormat.NegativeSign = "~";
        var before = CultureInfo.CurrentCulture;

        CultureInfo.CurrentCulture = comma;
        var withComma = await new PatientByProgram(Swimmer).TalkAsync((id, value) => InProcessAsync(id, value, "second"));
        CultureInfo.CurrentCulture = before;

        Assert.Equal(plain, withComma);
    }

    [Fact]
    public async Task A_first_text_begins_the_conversation_and_is_taken_too()
    {
        var replies = await ReplyDataAsync(SomeActivity.Message("my left ear is dull"));

        Assert.Equal("say", replies[0].GetProperty("kind").GetString());
        Assert.Single(replies, r => r.GetProperty("kind").GetString() is "ask" or "confirm");
        Assert.Equal(2, _store.Records.Length);
        Assert.Contains("my left ear is dull", Encoding.UTF8.GetString(_store.Records[1].Body.Span), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Two_overlapping_messages_with_one_id_have_one_effect()
    {
        await ReplyDataAsync(SomeActivity.Message(null, new { begin = "en" }));
        var message = SomeActivity.Message("my left ear is dull", id: "twice");

        var both = await Task.WhenAll(ReplyDataAsync(message), ReplyDataAsync(message));

        Assert.Equal(both[0].Select(r => r.GetRawText()), both[1].Select(r => r.GetRawText()));
        Assert.Single(_store.Records, r => r.TurnId == "twice");
    }

    [Fact]
    public async Task Two_first_messages_at_once_begin_one_conversation()
    {
        await Task.WhenAll(
            ReplyDataAsync(SomeActivity.Message("my ear is dull", id: "one")),
            ReplyDataAsync(SomeActivity.Message("my ear is dull", id: "two")));

        Assert.Single(_store.Records.Select(r => r.Conversation).Distinct());
        Assert.Equal(["begin", "one", "two"], _store.Records.Select(r => r.TurnId).Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task What_cannot_be_saved_is_answered_with_the_fixed_emergency_text()
    {
        _store.IsFull = true;

        using var answer = await _host.PostAsync(Token, SomeActivity.Message("my ear is dull"));
        var activity = Assert.Single(Activities(await answer.Content.ReadAsStringAsync()));

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal("""{"kind":"not saved"}""", Compact(activity.GetProperty("channelData")).GetRawText());
        Assert.Contains(new ShippedEdition().Current.Edition.Clinic.EmergencyNumber, activity.GetProperty("text").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_story_in_own_words_is_read_back_with_a_button_to_correct_each_part_and_its_signs_are_asked_next()
    {
        const string Story = "back monday from ten days at a hostel by a river, swam daily, left ear feels blocked n cant hear people on the phone. used a cotton "
            + "bud once (sorry), olive oil drops since wednesday + its getting worse. no pain tho, was a bit dizzy getting out of bed yday";
        await ReplyDataAsync(SomeActivity.Message(null, new { begin = "en" }));

        using var answer = await _host.PostAsync(Token, SomeActivity.Message(Story, id: "story"));
        var confirm = Activities(await answer.Content.ReadAsStringAsync())[^1];
        var replies = await ReplyDataAsync(SomeActivity.Message("yes", id: "confirmed"));

        var data = confirm.GetProperty("channelData");
        Assert.Equal("confirm", data.GetProperty("kind").GetString());
        Assert.Equal(["ears affected", "swam lately"], data.GetProperty("understood").EnumerateArray().Select(u => u.GetProperty("fact").GetString()));
        Assert.Equal(
            ["spinning", "hearing", "blocked", "pain", "ear hurt by poking", "hearing comes and goes", "no better with ear medicine"],
            data.GetProperty("askedNext").EnumerateArray().Select(u => u.GetProperty("fact").GetString()));
        Assert.Equal(4, confirm.GetProperty("suggestedActions").GetProperty("actions").GetArrayLength());
        Assert.Equal("other signs", replies[^1].GetProperty("question").GetProperty("name").GetProperty("screen").GetString());
    }

    [Fact]
    public async Task A_value_that_cannot_be_read_is_said_to_be_so()
    {
        var reply = Assert.Single(await ReplyDataAsync(SomeActivity.Message(null, new { chose = 1 })));

        Assert.Equal("unreadable", reply.GetProperty("kind").GetString());
        Assert.Empty(_store.Records);
    }

    [Fact]
    public async Task A_question_that_one_tap_can_answer_has_buttons_that_name_it()
    {
        await new PatientByProgram(Swimmer).TalkAsync(ByChannelAsync);
        using var answer = await _host.PostAsync(Token, SomeActivity.Message(null, new { change = new { screen = "ears affected" } }, id: "change"));
        var asked = Activities(await answer.Content.ReadAsStringAsync())[^1];

        var button = asked.GetProperty("suggestedActions").GetProperty("actions")[0];
        var name = asked.GetProperty("channelData").GetProperty("question").GetProperty("name");
        Assert.Equal(name.GetProperty("screen").GetString(), button.GetProperty("value").GetProperty("answers").GetProperty("screen").GetString());
        Assert.Equal(name.GetProperty("askedInTurn").GetInt32(), button.GetProperty("value").GetProperty("answers").GetProperty("askedInTurn").GetInt32());
    }

    string Token => $"Bearer {_issuer.Token(ChannelHost.Now)}";

    Task<JsonElement[]> ByChannelAsync(string id, JsonNode value) => ReplyDataAsync(SomeActivity.Message(null, value, id));

    async Task<JsonElement[]> ReplyDataAsync(object activity)
    {
        using var answer = await _host.PostAsync(Token, activity);
        var body = await answer.Content.ReadAsStringAsync();
        Assert.True(answer.StatusCode == HttpStatusCode.OK, $"{answer.StatusCode}: {body}");
        return [.. Activities(body).Select(a => Compact(a.GetProperty("channelData")))];
    }

    static List<JsonElement> Activities(string body) =>
        [.. JsonDocument.Parse(body).RootElement.GetProperty("activities").EnumerateArray()];

    static JsonElement Compact(JsonElement element) => JsonDocument.Parse(JsonNode.Parse(element.GetRawText())!.ToJsonString(Relaxed)).RootElement;

    static readonly JsonSerializerOptions Relaxed = new() { Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    Task<JsonElement[]> InProcessAsync(string id, JsonNode value) => InProcessAsync(id, value, "first");

    async Task<JsonElement[]> InProcessAsync(string id, JsonNode value, string conversation)
    {
        var read = SentTurnReader.Read(new Activity(
            ActivityTypes.Message, id: id, conversation: new ConversationAccount(id: conversation), value: JToken.Parse(value.ToJsonString())));
        var turn = Assert.IsType<SentTurn.Taken>(read).Turn;
        var adapter = new InProcessAdapter();
        var taken = await adapter.TakeAsync(_host.Services.GetRequiredService<IBot>(), conversation, turn, [], CancellationToken.None);
        Assert.Equal(adapter.Replies.AsEnumerable(), Assert.IsType<TurnTaken.Kept>(taken).Replies.AsEnumerable());
        return [.. JsonDocument.Parse(TurnJson.WriteReplies(adapter.Replies)).RootElement.EnumerateArray()];
    }
}
