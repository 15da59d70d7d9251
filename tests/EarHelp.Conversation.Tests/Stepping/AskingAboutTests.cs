using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Telling;
using EarHelp.Conversation.Turns;
using EarHelp.Triage.Facts;
using EarHelp.Understanding.Messages;
using NodaTime;

namespace EarHelp.Conversation.Tests.Stepping;

public sealed class AskingAboutTests
{
    static readonly Dictionary<string, string?> SlowlyBlocked = new()
    {
        ["hearing"] = "reduced",
        ["hearing worsened over"] = "91..36500",
        ["hearing changed on"] = "91..36500",
        ["blocked"] = "yes",
    };

    [Fact]
    public void The_danger_signs_come_before_the_answer_and_each_screen_comes_once()
    {
        var talk = new OneConversation().Begin().Form();

        talk.Take(new TurnContent.AskAbout("cotton buds"), null);
        Assert.Contains(talk.Replies, r => r is Reply.Say { Text: "answer follows" });
        var screens = new List<string>();
        while (Answered(talk) is null)
            screens.AddRange(talk.Answer(SlowlyBlocked, most: 1));

        Assert.Equal("danger signs", screens[0]);
        Assert.Equal(screens.Distinct(), screens);
        Assert.Equal("cotton buds", Answered(talk)!.Page);
        Assert.Contains(Answered(talk)!.Advice, a => a.Id == "nothing poked into the ear");
        var redFlags = OneConversation.Edition.Dialog.Facts.Where(f => f.RedFlag is RedFlag.Marked && f.AskIn == AskIn.Safety && f.AppliesWhen.IsEmpty);
        Assert.All(redFlags, f => Assert.Contains(talk.State!.Answers, a => a.Of.Fact == f.Index));
    }

    [Fact]
    public void After_an_outcome_the_answer_comes_at_once_if_all_is_known_and_the_plan_is_not_told_again()
    {
        var talk = new OneConversation().Begin().Form();
        talk.Answer(SlowlyBlocked);

        talk.Take(new TurnContent.AskAbout("wax colour and smell"), null);
        if (Answered(talk) is null)
            talk.Answer(SlowlyBlocked);
        talk.Take(new TurnContent.AskAbout("why me"), null);

        Assert.NotNull(Answered(talk));
        Assert.Null(talk.Told);
        Assert.Null(talk.Asked);
        Assert.True(talk.State!.IsFinished);
    }

    [Fact]
    public void In_an_emergency_there_is_no_answer_but_the_emergency()
    {
        var talk = new OneConversation().Begin().Form();
        talk.Take(new TurnContent.AskAbout("cotton buds"), null);

        talk.Choose(("face drooping", "yes"));

        Assert.Null(Answered(talk));
        Assert.Equal(0, talk.Told!.Rank);
    }

    [Fact]
    public void An_answer_that_is_not_safe_for_this_person_gives_way_to_the_outcome()
    {
        var talk = new OneConversation().Begin().Form();
        talk.Take(new TurnContent.AskAbout("which drops are best"), null);

        var said = new List<Reply>();
        while (talk.Told is null)
        {
            talk.Answer(new Dictionary<string, string?>(SlowlyBlocked) { ["hole ever"] = "yes" }, most: 1);
            said.AddRange(talk.Replies);
        }

        Assert.Contains(said, r => r is Reply.Say { Text: "answer not for you" });
        Assert.DoesNotContain(said, r => r is Reply.Answered);
        Assert.NotNull(talk.Told);
    }

    [Fact]
    public void What_is_not_known_forbids_an_answer_as_well()
    {
        var talk = new OneConversation().Begin().Form();
        talk.Take(new TurnContent.AskAbout("which drops are best"), null);

        talk.Answer(new Dictionary<string, string?>(SlowlyBlocked) { ["hole ever"] = null });

        Assert.Null(Answered(talk));
    }

    [Fact]
    public void The_gate_of_the_drops_is_asked_before_an_answer_names_them()
    {
        var talk = new OneConversation().Begin().Form();
        talk.Take(new TurnContent.AskAbout("which drops are best"), null);

        var screens = new List<string>();
        while (Answered(talk) is null && talk.Told is null)
            screens.AddRange(talk.Answer(SlowlyBlocked, most: 1));

        Assert.Contains("ear history", screens);
        Assert.Contains("health", screens);
        Assert.Contains(Answered(talk)!.Advice, a => a.Id == "softening drops");
    }

    [Theory]
    [InlineData("can i use cotton buds", "cotton buds")]
    [InlineData("Can I fly with a blocked ear?", "flying with a blocked ear")]
    [InlineData("do ear candles really work", "ear candles")]
    [InlineData("does microsuction hurt a lot", "does suction hurt")]
    public void A_typed_question_leads_to_its_answer(string text, string answer)
    {
        var talk = new OneConversation().Begin().Form();

        talk.Type(text);
        if (talk.Asked?.Name.Screen == "read back")
            talk.Take(new TurnContent.Chosen([], false), talk.Asked.Name);

        Assert.Equal(answer, talk.State!.About);
        talk.Answer(SlowlyBlocked);
        Assert.Null(talk.State!.About);
    }

    [Fact]
    public void Every_wording_of_the_pages_leads_to_its_own_page()
    {
        var book = OneConversation.Edition.PhrasesOf("en");
        var answers = OneConversation.Edition.Edition.Wordings["en"].Answers.Values;

        Assert.Equal([], answers.SelectMany(a => a.AskedAs.Where(w => TopicReader.Read(book, w, isQuestion: true)?.Found?.Id != a.Id).Select(w => $"{a.Id}: {w}")));
    }

    [Theory]
    [InlineData("i went for a walk with my dog and then we had tea")]
    [InlineData("hello")]
    [InlineData("")]
    public void What_asks_for_no_page_leads_to_none(string text) => Assert.Null(TopicReader.Read(OneConversation.Edition.PhrasesOf("en"), text, isQuestion: true)?.Found);

    [Theory]
    [InlineData(0, false)]
    [InlineData(1, true)]
    public void A_page_past_its_grace_gives_way_to_safe_general_advice(int daysPast, bool isOutOfDate)
    {
        var review = OneConversation.Edition.Edition.Wordings["en"].Answers["cotton buds"].Review;
        var clinic = OneConversation.Edition.Edition.Clinic;
        var day = review.ReviewBy.PlusDays(clinic.ReviewGraceDays + daysPast);
        var talk = new OneConversation { Now = day.At(new LocalTime(9, 30)).InZoneLeniently(clinic.Zone).ToInstant() }.Begin().Form();

        talk.Take(new TurnContent.AskAbout("cotton buds"), null);
        while (Answered(talk) is null)
            talk.Answer(SlowlyBlocked, most: 1);

        Assert.Equal(isOutOfDate, Answered(talk)!.IsOutOfDate);
        Assert.Equal(isOutOfDate, Answered(talk)!.Advice.IsEmpty);
        var said = PlainText.Of(OneConversation.Edition.WriterOf(talk.State!).Write(talk.Replies.OfType<Reply.Answered>().Single(), talk.Now), OneConversation.Edition.WriterOf(talk.State!));
        Assert.Equal(!isOutOfDate, said.Contains("The rest it pushes in", StringComparison.Ordinal));
        Assert.Equal(isOutOfDate, said.Contains("looked over by our clinicians", StringComparison.Ordinal));
    }

    [Fact]
    public void An_unknown_name_asks_for_nothing()
    {
        var talk = new OneConversation().Begin().Form();

        talk.Take(new TurnContent.AskAbout("no such page"), null);

        Assert.Null(talk.State!.About);
        Assert.Equal("danger signs", talk.Asked!.Name.Screen);
    }

    static PageTold? Answered(OneConversation talk) => talk.Replies.OfType<Reply.Answered>().LastOrDefault()?.Told;
}
