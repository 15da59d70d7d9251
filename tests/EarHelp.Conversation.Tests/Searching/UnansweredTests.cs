using System.Collections.Immutable;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Searching;
using EarHelp.Conversation.Records;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.States;
using EarHelp.Conversation.Stepping;
using EarHelp.Conversation.Tests.Taking;
using EarHelp.Conversation.Turns;
using NodaTime;

namespace EarHelp.Conversation.Tests.Searching;

/// <summary>What was not understood is read by clinicians only where the person allows it, and only for a time.</summary>
public sealed class UnansweredTests : IKeptConversations
{
    static readonly TurnContent.Typed Odd = new("fizzlewump when Brendan sings");

    readonly TurnsInMemory _store = new();

    public ValueTask<ImmutableArray<string>> ConversationsAsync(CancellationToken cancellation) => new(["c"]);

    [Fact]
    public async Task What_was_not_understood_is_listed_without_names_once_it_is_allowed()
    {
        await TalkAsync(Odd, new TurnContent.ShareWords(IsAllowed: true));

        Assert.Equal("fizzlewump when … sings", Assert.Single(await FindAsync()).Words);
    }

    [Fact]
    public async Task Without_a_yes_nothing_is_listed()
    {
        await TalkAsync(Odd);

        Assert.Empty(await FindAsync());
    }

    [Fact]
    public async Task What_is_taken_back_is_not_listed_any_more()
    {
        await TalkAsync(Odd, new TurnContent.ShareWords(IsAllowed: true), new TurnContent.ShareWords(IsAllowed: false));

        Assert.Empty(await FindAsync());
    }

    [Fact]
    public async Task What_was_understood_is_not_listed()
    {
        await TalkAsync(new TurnContent.Typed("my left ear itches"), new TurnContent.ShareWords(IsAllowed: true));

        Assert.Empty(await FindAsync());
    }

    [Fact]
    public async Task A_yes_does_not_reach_over_starting_over()
    {
        await TalkAsync(Odd, new TurnContent.StartOver(), new TurnContent.ShareWords(IsAllowed: true));

        Assert.Empty(await FindAsync());
    }

    [Fact]
    public async Task After_its_time_it_is_not_listed()
    {
        await TalkAsync(Odd, new TurnContent.ShareWords(IsAllowed: true));

        Assert.Empty(await FindAsync(Some.Morning + Duration.FromDays(1)));
    }

    [Fact]
    public void It_is_asked_once_in_a_conversation()
    {
        var patient = new Patient().Answer().Type("fizzlewump");
        Assert.Contains("share words", patient.Sayings);

        patient.Type("fizzlewump");

        Assert.DoesNotContain("share words", patient.Sayings);
    }

    [Fact]
    public void A_clinic_that_reads_none_asks_nobody()
    {
        var clinic = Some.Edition.Edition.Clinic with { WordsKeptDays = 0 };
        var edition = new ServedEdition(Some.Edition.Edition with { Clinic = clinic }, Some.Edition.Assessor);

        Assert.DoesNotContain("share words", new Patient(edition).Answer().Type("fizzlewump").Sayings);
    }

    async Task<ImmutableArray<NotUnderstood>> FindAsync(Instant? since = null) =>
        (await UnansweredSearch.FindAsync(this, _store, Some.Edition.PhrasesOf("en"), since ?? Some.Morning - Duration.FromDays(1), default)).Messages;

    async Task TalkAsync(params TurnContent[] contents)
    {
        ConversationState? state = null;
        var previous = string.Empty;
        foreach (var content in contents.Prepend(new TurnContent.Begin("en")))
        {
            var turn = new Turn($"t{state?.Number ?? 0}", state?.Pending?.Question.Name, content);
            var stepped = Conversing.Step(Some.Edition, state, turn, Some.Morning);
            state = stepped.State;
            var record = TurnRecord.Chain("c", state.Number, turn.Id, Some.Morning.ToUnixTimeMilliseconds(), Some.Edition.Edition.Id, "test", false,
                TurnJson.Write(new TurnBody(TurnBody.CurrentVersion, turn, stepped.Replies)), previous);
            previous = record.Hash;
            await _store.AppendAsync(record, [], default);
        }
    }
}
