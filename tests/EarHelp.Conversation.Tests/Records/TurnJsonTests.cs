using System.Text;
using System.Text.Json;
using EarHelp.Conversation.Records;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Tests.Stepping;
using EarHelp.Conversation.Turns;
using EarHelp.Triage.Answers;

namespace EarHelp.Conversation.Tests.Records;

public class TurnJsonTests
{
    /// <summary>Kept as it was written by version 1; it must stay readable for as long as such records may exist.</summary>
    const string VersionOne =
        """
        {"schemaVersion":1,"turn":{"id":"t4","answers":{"screen":"hearing","ear":"right","wording":1,"askedInTurn":9},"content":{"kind":"chosen","answers":[{"fact":"hearing","value":"reduced","notSure":false}],"noneOfThese":false}},"replies":[{"kind":"say","text":"answers dropped","blanks":[{"name":"list","value":"fact:hearing changed on@right"}]},{"kind":"alarm","level":"now"},{"kind":"ask","question":{"name":{"screen":"hearing changed on","ear":"right","wording":1,"askedInTurn":10},"facts":[{"fact":"hearing changed on","options":[{"value":"0","words":0}],"input":{"kind":"date","from":0,"to":36500,"unit":"days"},"offersNotSure":true}],"kind":"oneFact"}},{"kind":"confirm","name":{"screen":"read back","wording":1,"askedInTurn":10},"understood":[{"fact":"ears affected","value":"right","words":"right ear"}]},{"kind":"outcome","told":{"level":"within a day","rank":2,"seenWithin":"PT24H","seenBy":"2026-11-25T10:00:00Z","answerBy":"2026-11-24T22:00:00Z","decidedAt":"2026-11-24T10:00:00Z","isOverdue":false,"destinations":[{"id":"this clinic","visitAt":"2026-11-24T10:00:00Z"},{"id":"emergency department"}],"clinicIsTooLate":false,"mayTreat":false,"hold":"not until seen","advice":[{"id":"keep the ear dry","kind":"to do","ear":"right"}],"warnings":[],"explanations":["why sudden dullness is looked at"],"reasons":[{"rule":"RF-033.1","ear":"right","decides":true,"blanks":[{"name":"hearing","value":"reduced"}]}],"answers":[{"fact":"hearing","ear":"right","value":"reduced","isRedFlag":true}],"isEarly":false}}]}
        """;

    [Fact]
    public void Reads_a_record_of_version_one()
    {
        var body = TurnJson.Read(Encoding.UTF8.GetBytes(VersionOne));

        Assert.Equal(new QuestionName("hearing", Ear.Right, 1, 9), body.Turn.Answers);
        var told = Assert.IsType<Reply.Outcome>(body.Replies[^1]).Told;
        Assert.Equal("this clinic", told.Destinations[0].Id);
        Assert.Equal(Some.Morning, told.DecidedAt);
    }

    [Fact]
    public void Writes_what_it_reads_to_the_letter()
    {
        // This text is also the documented sample of what a program receives as channel data.
        var body = TurnJson.Read(Encoding.UTF8.GetBytes(VersionOne));

        Assert.Equal(VersionOne, Encoding.UTF8.GetString(TurnJson.Write(body)));
    }

    [Fact]
    public void Refuses_a_version_that_it_does_not_know()
    {
        var later = VersionOne.Replace("\"schemaVersion\":1", "\"schemaVersion\":2", StringComparison.Ordinal);

        var fault = Assert.Throws<JsonException>(() => TurnJson.Read(Encoding.UTF8.GetBytes(later)));

        Assert.Contains("schemaVersion 2", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_kind_of_turn_comes_back_as_it_was()
    {
        TurnContent[] contents =
        [
            new TurnContent.Begin("en"), new TurnContent.Typed("\"ear\" <b> ü"), new TurnContent.Change("hearing", Ear.Left),
            new TurnContent.SomethingChanged(), new TurnContent.StartOver(), new TurnContent.AskForLink(), new TurnContent.CameBack(),
        ];

        foreach (var content in contents)
            Assert.Equal(new Turn("1", null, content), TurnJson.ReadTurn(TurnJson.WriteTurn(new Turn("1", null, content))));
    }

    [Fact]
    public void Every_reply_of_a_conversation_comes_back_as_it_was()
    {
        var patient = FirstToLastTests.Swimmer();
        while (patient.Asked is not null)
        {
            var written = TurnJson.WriteReplies(patient.Replies);

            Assert.Equal(Encoding.UTF8.GetString(written), Encoding.UTF8.GetString(TurnJson.WriteReplies(TurnJson.ReadReplies(written))));
            patient.Answer();
        }
    }

    [Fact]
    public void A_reply_of_an_unknown_kind_is_refused() =>
        Assert.ThrowsAny<Exception>(() => TurnJson.ReadReplies("""[{"kind":"sing"}]"""u8));
}
