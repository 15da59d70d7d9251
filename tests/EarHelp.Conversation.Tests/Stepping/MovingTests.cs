using EarHelp.Conversation.States;
using EarHelp.Conversation.Stepping;
using EarHelp.Conversation.Turns;
using EarHelp.Triage.Assessments;
using EarHelp.Triage.Editions;

namespace EarHelp.Conversation.Tests.Stepping;

/// <summary>What a conversation takes with it into a corrected edition.</summary>
public sealed class MovingTests
{
    static readonly Dictionary<string, string?> SuddenlyDull = new() { ["hearing"] = "reduced", ["blocked"] = "yes" };

    [Fact]
    public void A_conversation_that_moves_to_an_edition_with_the_same_questions_keeps_all_answers_and_its_open_question()
    {
        var talk = new OneConversation().Begin().Form();
        talk.Answer(SuddenlyDull, most: 3);

        var moved = Moving.Into(OneConversation.Edition, OneConversation.Edition, talk.State!);

        Assert.Equal(talk.State!.Answers.AsEnumerable(), moved.Answers);
        Assert.Equal(talk.State.Pending, moved.Pending);
        Assert.True(moved.IsMoved);
    }

    [Fact]
    public void A_level_that_may_not_become_less_urgent_stays_with_its_time_and_places()
    {
        var state = Floored();

        var floor = Moving.Into(OneConversation.Edition, OneConversation.Edition, state).Floor!;

        Assert.Equal((state.Floor!.Level, state.Floor.Rank, state.Floor.SeenBy), (floor.Level, floor.Rank, floor.SeenBy));
        Assert.Equal(state.Floor.Destinations.AsEnumerable(), floor.Destinations);
    }

    [Fact]
    public void A_level_that_the_corrected_edition_has_no_more_becomes_the_next_more_urgent_one()
    {
        var state = Floored();
        var (dialog, rank) = (OneConversation.Edition.Dialog, state.Floor!.Rank);
        var next = With(dialog with { Levels = dialog.Levels.SetItem(rank, dialog.Levels[rank] with { Id = "another name" }) });

        var moved = Moving.Into(next, OneConversation.Edition, state);

        Assert.Equal((dialog.Levels[rank - 1].Id, rank - 1), (moved.Floor!.Level, moved.Floor.Rank));
        Assert.Equal(state.Floor.SeenBy, moved.Floor.SeenBy);
        Assert.All(moved.Reached, r => Assert.NotEqual(rank, r.Rank));
        Assert.Equal(state.Reached.Length, moved.Reached.Length);
    }

    [Fact]
    public void Without_any_of_its_places_the_level_is_kept_with_those_of_its_own_rows()
    {
        var state = Floored();
        var (dialog, rank) = (OneConversation.Edition.Dialog, state.Floor!.Rank);
        var next = With(dialog with { Destinations = [.. dialog.Destinations.Select(d => d with { Id = d.Id + " now" })] });

        var floor = Moving.Into(next, OneConversation.Edition, state).Floor!;

        Assert.Equal(rank, floor.Rank);
        Assert.NotEmpty(floor.Destinations);
        Assert.All(floor.Destinations, d => Assert.Contains(next.Dialog.Rules, r => r.Level == rank && r.Where.Any(w => next.Dialog.Destinations[w].Id == d.Id)));
    }

    /// <summary>Someone whose hearing dropped today was told to be seen within a day, and then says that something has changed.</summary>
    static ConversationState Floored()
    {
        var talk = new OneConversation().Begin().Form();
        talk.Answer(SuddenlyDull);
        Assert.InRange(talk.Told!.Rank, 2, int.MaxValue);
        talk.Take(new TurnContent.SomethingChanged(), null);
        Assert.NotNull(talk.State!.Floor);
        return talk.State;
    }

    static ServedEdition With(Dialog dialog) => new(OneConversation.Edition.Edition with { Dialog = dialog }, Assessor.Build(dialog));
}
