using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Signing;
using EarHelp.Conversation.Stepping;
using EarHelp.Conversation.Turns;
using EarHelp.Conversation.Withdrawing;

namespace EarHelp.Conversation.Tests.Withdrawing;

public sealed class WithdrawalsTests
{
    static readonly Dictionary<string, string?> Blocked = new() { ["hearing"] = "reduced", ["blocked"] = "yes" };

    [Fact]
    public void While_all_triage_is_withdrawn_only_emergencies_are_told_and_what_was_asked_stays_open()
    {
        var talk = new OneConversation().Begin().Form();
        var open = talk.Asked!.Name.Screen;
        talk.Withdrawn = Withdrawals.Everything;

        talk.Type("I have slurred speech");

        Assert.Contains(talk.Replies, r => r is Reply.Alarm);
        Assert.Equal("withdrawn", Assert.IsType<Reply.Say>(talk.Replies[^1]).Text);
        Assert.DoesNotContain(talk.Replies, r => r is not (Reply.Alarm or Reply.Say { Text: "withdrawn" }));
        talk.Withdrawn = Withdrawals.None;
        talk.Take(new TurnContent.GoOn(), null);
        Assert.Equal(open, talk.Asked!.Name.Screen);
    }

    [Fact]
    public void The_most_urgent_outcome_is_told_whatever_is_withdrawn()
    {
        var talk = new OneConversation { Withdrawn = Withdrawals.Everything }.Begin().Form();

        talk.Choose(("arm or leg weak", "yes"));

        Assert.Equal(0, talk.Told!.Rank);
    }

    [Fact]
    public void A_withdrawn_outcome_is_not_told_and_comes_by_itself_once_it_is_lifted()
    {
        var before = new OneConversation().Begin().Form();
        before.Answer(Blocked);
        var level = before.Told!.Level;
        var talk = new OneConversation { Withdrawn = new Withdrawals(false, [level]) }.Begin().Form();

        talk.Answer(Blocked);

        Assert.Null(talk.Told);
        Assert.Equal((true, false, false), (talk.State!.IsWithheld, talk.State.IsFinished, talk.State.HasOutcome));
        Assert.Contains(talk.Replies, r => r is Reply.Say { Text: "withdrawn outcome" });
        talk.Withdrawn = Withdrawals.None;
        talk.Take(new TurnContent.GoOn(), null);
        Assert.Equal(level, talk.Told!.Level);
        Assert.False(talk.State.IsWithheld);
    }

    [Fact]
    public void What_is_withdrawn_is_the_sum_of_the_ledger()
    {
        Assert.Equal(["a", "b"], In(Off("b"), Off("a")).Outcomes.AsEnumerable());
        Assert.Equal(["b"], In(Off("b"), Off("a"), On("a")).Outcomes.AsEnumerable());
        Assert.True(In(Off(null), On("a")).AllTriage);
        Assert.True(In(Off("b"), Off(null), On(null)).IsNone);
    }

    [Fact]
    public void Conversations_move_only_to_an_edition_that_was_published_after_the_last_withdrawal()
    {
        Assert.Empty(LedgerOf(Published("one")).Corrected);
        Assert.Empty(LedgerOf(Published("one"), Off(null), On(null)).Corrected);
        Assert.Equal(["two"], LedgerOf(Published("one"), Off(null), Published("two")).Corrected.AsEnumerable());
        Assert.Empty(LedgerOf(Published("one"), Off(null), Published("two"), new Deed(DeedKind.FilesFollowed, "two", 0, "Al", "author", "drafts")).Corrected);
        Assert.Empty(LedgerOf(Published("one"), Off(null), Published("two"), Off("a")).Corrected);
    }

    static Withdrawals In(params Deed[] deeds) => Withdrawals.In(LedgerOf(deeds));

    static Ledger LedgerOf(params Deed[] deeds) => new([.. deeds], null);

    static Deed Off(string? outcome) => new(DeedKind.Withdrawn, "", 0, "Al", "author", "wrong", Outcome: outcome);

    static Deed On(string? outcome) => new(DeedKind.Lifted, "", 0, "Al", "author", "right", Outcome: outcome);

    static Deed Published(string edition) => new(DeedKind.Published, edition, 0, "Al", "author", "new");
}
