using System.Text;
using EarHelp.Conversation.Records;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Stepping;
using EarHelp.Conversation.Taking;
using EarHelp.Conversation.Turns;
using Microsoft.Extensions.Time.Testing;

namespace EarHelp.Conversation.Tests.Taking;

public class TurnTakingTests
{
    readonly TurnsInMemory _store = new();
    readonly FakeTimeProvider _clock = new(Some.Morning.ToDateTimeOffset());
    readonly TurnTaking _turns;

    public TurnTakingTests() => _turns = new TurnTaking(_store, new OneShelf(Some.Edition), _clock);

    [Fact]
    public async Task Answers_only_what_is_kept()
    {
        var begun = Assert.IsType<TurnTaken.Kept>(await TakeAsync("1", new TurnContent.Begin("en")));

        Assert.Equal(1, begun.Number);
        Assert.Equal(_store.Of("c")[0].Hash, begun.State.Hash);
        Assert.True(_store.Of("c")[0].IsIntact(string.Empty));
    }

    [Fact]
    public async Task Chains_each_turn_to_the_one_before()
    {
        await TakeAsync("1", new TurnContent.Begin("en"));
        await TakeAsync("2", new TurnContent.Typed("me, 45, near the clinic"));

        Assert.True(_store.Of("c")[1].IsIntact(_store.Of("c")[0].Hash));
    }

    [Fact]
    public async Task A_repeated_turn_gets_its_stored_replies_and_changes_nothing()
    {
        await TakeAsync("1", new TurnContent.Begin("en"));
        var first = Assert.IsType<TurnTaken.Kept>(await TakeAsync("2", new TurnContent.Typed("me, 45, near the clinic")));

        var again = Assert.IsType<TurnTaken.Kept>(await TakeAsync("2", new TurnContent.Typed("something else")));

        Assert.True(again.IsRepeated);
        Assert.Equal(first.Number, again.Number);
        Assert.Equal(Json(first), Json(again));
        Assert.Equal(2, _store.Of("c").Count);
    }

    [Fact]
    public async Task Fifty_posts_of_one_turn_at_once_have_one_effect()
    {
        await TakeAsync("1", new TurnContent.Begin("en"));

        var taken = await Task.WhenAll(Enumerable.Range(0, 50)
            .Select(_ => Task.Run(() => TakeAsync("2", new TurnContent.Typed("me, 45, near the clinic")))));

        Assert.Equal(2, _store.Of("c").Count);
        Assert.Equal(1, taken.Count(t => t is TurnTaken.Kept { IsRepeated: false }));
        Assert.Single(taken.Cast<TurnTaken.Kept>().Select(Json).Distinct());
    }

    [Fact]
    public async Task Different_turns_at_once_are_all_kept_in_one_order()
    {
        await TakeAsync("1", new TurnContent.Begin("en"));

        await Task.WhenAll(Enumerable.Range(2, 20).Select(i => Task.Run(() => TakeAsync($"{i}", new TurnContent.Typed("qwertz")))));

        Assert.Equal(21, _store.Of("c").Count);
        Assert.Empty((await _turns.ReplayAsync("c", default)).Differing);
    }

    [Fact]
    public async Task Another_process_that_has_taken_the_number_is_read_first()
    {
        await TakeAsync("1", new TurnContent.Begin("en"));
        var other = new TurnTaking(_store, new OneShelf(Some.Edition), _clock);
        await other.TakeAsync("c", new Turn("2", null, new TurnContent.Typed("me, 45, near the clinic")), [], default);

        var taken = Assert.IsType<TurnTaken.Kept>(await TakeAsync("3", new TurnContent.Typed("none of these")));

        Assert.Equal(3, taken.Number);
        Assert.Equal("very ill", taken.State.Pending!.Question.Name.Screen);
    }

    [Fact]
    public async Task A_state_that_is_not_at_hand_is_folded_from_the_turns()
    {
        await TakeAsync("1", new TurnContent.Begin("en"));
        await TakeAsync("2", new TurnContent.Typed("me, 45, near the clinic"));
        var fresh = new TurnTaking(_store, new OneShelf(Some.Edition), _clock);

        var found = await fresh.FindAsync("c", default);

        Assert.Equal("danger signs", found!.Value.State.Pending!.Question.Name.Screen);
        Assert.Equal(_store.Of("c")[1].Hash, found.Value.State.Hash);
    }

    [Fact]
    public async Task What_could_not_be_saved_is_never_answered_but_its_emergency_is_shown()
    {
        await TakeAsync("1", new TurnContent.Begin("en"));
        _store.FailsToAppend = true;

        var taken = Assert.IsType<TurnTaken.NotSaved>(await TakeAsync("2", new TurnContent.Typed("slurred speech")));

        Assert.Contains(taken.Emergencies, e => e is Reply.Alarm { Signpost: "speech trouble" });
    }

    [Fact]
    public async Task An_emergency_is_shown_even_if_the_conversation_cannot_be_read()
    {
        _store.FailsToLoad = true;

        var typed = Assert.IsType<TurnTaken.NotSaved>(await TakeAsync("2", new TurnContent.Typed("slurred speech")));
        var chosen = Assert.IsType<TurnTaken.NotSaved>(
            await TakeAsync("3", new TurnContent.Chosen([new ChosenAnswer("chest pain", "yes", false)], false)));

        Assert.NotEmpty(typed.Emergencies);
        Assert.Contains(chosen.Emergencies, e => e is Reply.Alarm { Level: "now" });
    }

    [Fact]
    public async Task A_turn_that_was_not_saved_can_be_sent_again()
    {
        await TakeAsync("1", new TurnContent.Begin("en"));
        _store.FailsToAppend = true;
        await TakeAsync("2", new TurnContent.Typed("me, 45, near the clinic"));
        _store.FailsToAppend = false;

        var taken = Assert.IsType<TurnTaken.Kept>(await TakeAsync("2", new TurnContent.Typed("me, 45, near the clinic")));

        Assert.False(taken.IsRepeated);
        Assert.Equal("danger signs", taken.State.Pending!.Question.Name.Screen);
    }

    [Fact]
    public async Task A_conversation_that_was_erased_is_unknown()
    {
        await TakeAsync("1", new TurnContent.Begin("en"));
        await _store.EraseAsync("c", default);
        _turns.Forget("c");

        Assert.IsType<TurnTaken.Unknown>(await TakeAsync("2", new TurnContent.Typed("me")));
    }

    [Fact]
    public async Task A_replay_names_the_turn_whose_replies_differ()
    {
        await TakeAsync("1", new TurnContent.Begin("en"));
        await TakeAsync("2", new TurnContent.Typed("me, 45, near the clinic"));
        var kept = _store.Of("c")[1];
        var text = Encoding.UTF8.GetString(kept.Body.Span).Replace("\"danger signs\"", "\"very ill\"", StringComparison.Ordinal);
        _store.Replace("c", 2, kept with { Body = Encoding.UTF8.GetBytes(text) });

        var replayed = await _turns.ReplayAsync("c", default);

        Assert.Equal(2, Assert.Single(replayed.Differing));
    }

    [Fact]
    public async Task A_conversation_goes_on_with_the_edition_it_began_with()
    {
        var shelf = new OneShelf(Some.Edition);
        var turns = new TurnTaking(_store, shelf, _clock);
        await turns.TakeAsync("c", new Turn("1", null, new TurnContent.Begin("en")), [], default);
        shelf.Current = new ServedEdition(Some.Edition.Edition with { Id = "a newer one" }, Some.Edition.Assessor);

        var taken = Assert.IsType<TurnTaken.Kept>(await turns.TakeAsync("c", new Turn("2", null, new TurnContent.Typed("me")), [], default));

        Assert.Equal(Some.Edition.Edition.Id, taken.Edition.Edition.Id);
    }

    static string Json(TurnTaken.Kept kept) => Encoding.UTF8.GetString(TurnJson.WriteReplies(kept.Replies));

    async Task<TurnTaken> TakeAsync(string id, TurnContent content) => await _turns.TakeAsync("c", new Turn(id, null, content), [], default);

    sealed class OneShelf : IEditionShelf
    {
        readonly ServedEdition _first;

        public OneShelf(ServedEdition first) => (_first, Current) = (first, first);

        public ServedEdition Current { get; set; }

        public ValueTask<ServedEdition?> FindAsync(string editionId, CancellationToken cancellation) =>
            new(editionId == _first.Edition.Id ? _first : editionId == Current.Edition.Id ? Current : null);
    }
}
