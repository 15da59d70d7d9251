using EarHelp.Conversation.Turns;
using EarHelp.Triage.Answers;
using EarHelp.Web.Bot;
using Microsoft.Bot.Schema;
using Newtonsoft.Json.Linq;

namespace EarHelp.Bot.Tests;

public sealed class SentTurnReaderTests
{
    const string Question = """{"screen":"hearing","ear":"left","wording":2,"askedInTurn":4}""";

    static Activity Message(string? text, string? value = null) => new(
        ActivityTypes.Message,
        id: "m1",
        text: text,
        value: value is null ? null : JToken.Parse(value),
        conversation: new ConversationAccount(id: "c1"));

    static Turn Read(string? text, string? value = null) => Assert.IsType<SentTurn.Taken>(SentTurnReader.Read(Message(text, value))).Turn;

    [Fact]
    public void A_text_is_typed_and_the_id_of_the_activity_is_the_id_of_the_turn() =>
        Assert.Equal(new Turn("m1", null, new TurnContent.Typed("my ear is dull")), Read("my ear is dull"));

    [Fact]
    public void Chosen_answers_name_their_question()
    {
        var turn = Read("Duller", $$"""{"answers":{{Question}},"chosen":[{"fact":"hearing","value":"reduced"},{"fact":"age","value":52},{"fact":"pain","notSure":true}],"none":false}""");

        Assert.Equal(new QuestionName("hearing", Ear.Left, 2, 4), turn.Answers);
        var chosen = Assert.IsType<TurnContent.Chosen>(turn.Content);
        Assert.Equal([new("hearing", "reduced", false), new("age", "52", false), new("pain", null, true)], chosen.Answers.AsEnumerable());
        Assert.False(chosen.NoneOfThese);
    }

    [Fact]
    public void A_date_stays_the_date_that_was_written()
    {
        var turn = Read(null, $$"""{"answers":{{Question}},"chosen":[{"fact":"began on","value":"2026-11-20"},{"fact":"changed at","value":"2026-11-20T08:30"}]}""");

        Assert.Equal(["2026-11-20", "2026-11-20T08:30"], ((TurnContent.Chosen)turn.Content).Answers.Select(a => a.Value));
    }

    [Fact]
    public void None_of_these_alone_is_an_answer() =>
        Assert.True(((TurnContent.Chosen)Read(null, $$"""{"answers":{{Question}},"none":true}""").Content).NoneOfThese);

    [Theory]
    [InlineData("""{"begin":"en"}""", typeof(TurnContent.Begin))]
    [InlineData("""{"change":{"screen":"hearing","ear":"right"}}""", typeof(TurnContent.Change))]
    [InlineData("""{"somethingChanged":true}""", typeof(TurnContent.SomethingChanged))]
    [InlineData("""{"startOver":true}""", typeof(TurnContent.StartOver))]
    public void Every_other_turn_has_a_value_of_its_own(string value, Type content) =>
        Assert.IsType(content, Read(null, value).Content);

    [Fact]
    public void A_text_may_name_the_question_it_answers()
    {
        var turn = Read("yes", $$$"""{"answers":{{{Question}}}}""");

        Assert.Equal(("yes", "hearing"), (((TurnContent.Typed)turn.Content).Text, turn.Answers!.Screen));
    }

    [Fact]
    public void Channel_data_says_the_same_as_a_value()
    {
        var activity = Message(null);
        activity.ChannelData = JObject.Parse("""{"startOver":true}""");

        Assert.IsType<TurnContent.StartOver>(Assert.IsType<SentTurn.Taken>(SentTurnReader.Read(activity)).Turn.Content);
    }

    [Fact]
    public void Channel_data_of_the_channels_own_is_not_for_us()
    {
        var activity = Message("hello");
        activity.ChannelData = JObject.Parse("""{"clientActivityID":"7"}""");

        Assert.IsType<TurnContent.Typed>(Assert.IsType<SentTurn.Taken>(SentTurnReader.Read(activity)).Turn.Content);
    }

    [Theory]
    [InlineData("""{"chose":[]}""")]
    [InlineData("""{"answers":"hearing","chosen":[]}""")]
    [InlineData("""{"answers":{"screen":"hearing","wording":1},"chosen":[]}""")]
    [InlineData("""{"answers":{"screen":"hearing","ear":"middle","wording":1,"askedInTurn":1},"chosen":[]}""")]
    [InlineData("""{"chosen":{}}""")]
    [InlineData("""{"chosen":[{"fact":"hearing"}]}""")]
    [InlineData("""{"chosen":[{"fact":"hearing","value":"reduced","notSure":true}]}""")]
    [InlineData("""{"chosen":[{"value":"reduced"}]}""")]
    [InlineData("""{"startOver":"yes"}""")]
    [InlineData("""{"startOver":false}""")]
    [InlineData("{}")]
    public void A_value_of_another_form_is_named_and_never_guessed(string value) =>
        Assert.IsType<SentTurn.Unreadable>(SentTurnReader.Read(Message(null, value)));

    [Fact]
    public void An_activity_without_an_id_is_refused_since_it_could_not_be_recognised_again()
    {
        var activity = Message("hello");
        activity.Id = null;

        Assert.IsType<SentTurn.Unreadable>(SentTurnReader.Read(activity));
    }

    [Theory]
    [InlineData(ActivityTypes.Typing)]
    [InlineData(ActivityTypes.EndOfConversation)]
    [InlineData(ActivityTypes.Event)]
    public void What_is_no_message_is_not_for_us(string type)
    {
        var activity = Message("hello");
        activity.Type = type;

        Assert.IsType<SentTurn.NotForUs>(SentTurnReader.Read(activity));
    }

    [Fact]
    public void Somebody_who_joins_begins_a_conversation_in_their_language()
    {
        var activity = Message(null);
        activity.Type = ActivityTypes.ConversationUpdate;
        activity.Locale = "en-GB";
        activity.Recipient = new ChannelAccount("bot");
        activity.MembersAdded = [new ChannelAccount("bot"), new ChannelAccount("person")];

        var turn = Assert.IsType<SentTurn.Taken>(SentTurnReader.Read(activity)).Turn;

        Assert.Equal(new TurnContent.Begin("en-GB"), turn.Content);
    }
}
