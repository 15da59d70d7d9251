using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Turns;
using EarHelp.Triage.Answers;
using NodaTime;

namespace EarHelp.Conversation.Tests;

public sealed class WholeConversationTests
{
    static readonly Dictionary<string, string?> Swimmer = new()
    {
        ["ears affected"] = "left",
        ["hearing"] = "reduced",
        ["hearing worsened over"] = "0..3",
        ["hearing changed on"] = "1..3",
        ["looked at"] = "nobody",
        ["blocked"] = "yes",
        ["swam lately"] = "yes",
    };

    [Fact]
    public void A_swimmers_suddenly_dull_ear_is_looked_at_within_a_day_and_gets_no_drops()
    {
        var talk = new OneConversation().Begin().Form();

        var screens = talk.Answer(Swimmer);

        Assert.NotNull(talk.Told);
        Assert.Equal("within a day", talk.Told.Level);
        Assert.Equal("this clinic", talk.Told.Destinations[0].Id);
        Assert.NotNull(talk.Told.Destinations[0].VisitAt);
        Assert.DoesNotContain(talk.Told.Advice, a => a.Id == "softening drops");
        Assert.InRange(screens.Count, 1, 20);
    }

    [Fact]
    public void The_limit_runs_from_the_turn_that_first_reached_the_level()
    {
        var talk = new OneConversation().Begin().Form();

        talk.Answer(Swimmer);

        var reached = talk.State!.Reached.Where(r => r.Rank <= talk.Told!.Rank).Min(r => r.At);
        Assert.Equal(reached + Duration.FromHours(24), talk.Told!.SeenBy);
    }

    [Fact]
    public void A_sign_of_a_stroke_leads_to_the_emergency_number_at_once_and_nothing_more_is_asked()
    {
        var talk = new OneConversation().Begin().Form();

        talk.Choose(("face drooping", "yes"));

        Assert.Equal("now", talk.Told!.Level);
        Assert.Equal("emergency service", talk.Told.Destinations[0].Id);
        Assert.Null(talk.Asked);
    }

    [Fact]
    public void A_first_not_sure_to_a_danger_sign_brings_another_wording_and_only_a_second_one_counts()
    {
        var talk = new OneConversation().Begin().Form();

        talk.Choose(("face drooping", null));
        Assert.Equal(2, talk.Asked!.Name.Wording);
        Assert.Equal(["face drooping"], talk.Asked.Facts.Select(f => f.Fact));
        talk.Choose(("face drooping", null));

        Assert.Equal("now", talk.Told!.Level);
    }

    [Fact]
    public void Not_sure_to_everything_is_never_told_to_wait()
    {
        var talk = new OneConversation().Begin().Form();

        while (talk.Asked is { } question)
            talk.Choose([.. question.Facts.Select(f => (f.Fact, (string?)null))]);

        Assert.Equal("now", talk.Told!.Level);
    }

    [Fact]
    public void A_child_is_asked_the_danger_signs_and_handed_over_within_a_day()
    {
        var talk = new OneConversation().Begin().Form(age: "9", whom: "someone else");

        talk.Answer(new Dictionary<string, string?> { ["blocked"] = "yes" });

        Assert.Equal("within a day", talk.Told!.Level);
        Assert.DoesNotContain(talk.Told.Advice, a => a.Id is "softening drops" or "paracetamol");
        Assert.NotEmpty(talk.Told.Warnings);
    }

    [Fact]
    public void Someone_abroad_is_never_sent_to_the_clinic()
    {
        var talk = new OneConversation().Begin().Form(where: "abroad");

        talk.Answer(Swimmer);

        Assert.DoesNotContain(talk.Told!.Destinations, d => d.Id == "this clinic");
    }

    [Fact]
    public void A_clinic_that_cannot_see_the_person_in_time_is_left_out_and_the_next_place_is_named()
    {
        var talk = new OneConversation { Now = Instant.FromUtc(2026, 12, 24, 10, 0) }.Begin().Form();

        talk.Answer(Swimmer);

        Assert.True(talk.Told!.ClinicIsTooLate);
        Assert.NotEqual("this clinic", talk.Told.Destinations[0].Id);
    }

    [Fact]
    public void A_changed_answer_drops_what_hung_on_it_and_says_so()
    {
        var talk = new OneConversation().Begin().Form();
        while (talk.Asked!.Name.Screen != "looked at")
            talk.Answer(Swimmer, most: 1);

        talk.Take(new TurnContent.Change("hearing", Ear.Left), null);
        talk.Choose(("hearing", "usual"));

        Assert.Contains(talk.Replies, r => r is Reply.Say { Text: "answers dropped" });
        Assert.DoesNotContain(talk.State!.Answers, a => OneConversation.Edition.Dialog.Facts[a.Of.Fact].Id == "hearing worsened over");
    }

    [Fact]
    public void Undoing_an_answer_that_led_to_now_asks_in_other_words_keeps_the_emergency_text_and_both_answers()
    {
        var talk = new OneConversation().Begin().Form();
        talk.Choose(("face drooping", "yes"));

        talk.Take(new TurnContent.Change("danger signs", null), null);
        Assert.Equal(2, talk.Asked!.Name.Wording);
        Assert.Contains(talk.Replies, r => r is Reply.Alarm);
        talk.None();
        talk.Answer(Swimmer);

        Assert.Equal("yes", talk.Told!.Answers.Single(a => a.Fact == "face drooping").Earlier);
    }

    [Fact]
    public void Something_has_changed_asks_the_danger_signs_again_and_never_lowers_the_level()
    {
        var talk = new OneConversation().Begin().Form();
        talk.Answer(Swimmer);
        var before = talk.Told!;

        talk.Take(new TurnContent.SomethingChanged(), null);
        Assert.Equal("danger signs", talk.Asked!.Name.Screen);
        talk.Answer(new Dictionary<string, string?>(Swimmer) { ["hearing"] = "usual" });

        Assert.Equal(before.Level, talk.Told!.Level);
        Assert.True(talk.Told.SeenBy <= before.SeenBy);
    }

    [Fact]
    public void An_answer_to_an_older_question_is_kept_shown_and_never_applied_to_another()
    {
        var talk = new OneConversation().Begin().Form();
        var older = talk.Asked!.Name;
        talk.None();
        var open = talk.Asked!.Name;

        talk.Take(new TurnContent.Chosen([new ChosenAnswer("face drooping", "yes", false)], false), older);

        Assert.Contains(talk.Replies, r => r is Reply.Say { Text: "stale answer" });
        Assert.Equal(open.Screen, talk.Asked!.Name.Screen);
        Assert.Null(talk.Told);
    }

    [Fact]
    public void Three_messages_that_are_not_understood_lead_to_a_person()
    {
        var talk = new OneConversation().Begin().Form();

        talk.Type("zzz qqq");
        talk.Type("brrm brrm");
        talk.Type("xyzzy");

        Assert.Contains(talk.Replies, r => r is Reply.Say { Text: "not understood 3" });
    }

    [Fact]
    public void A_danger_sign_typed_in_passing_shows_its_text_at_once_and_is_asked_but_never_settles_by_itself()
    {
        var talk = new OneConversation().Begin().Form();
        talk.None();
        talk.None();

        talk.Type("since this morning my speech is slurred");

        Assert.Contains(talk.Replies, r => r is Reply.Alarm);
        Assert.Null(talk.Told);
    }

    [Fact]
    public void A_wrong_number_and_a_date_to_come_are_asked_again_with_the_reason()
    {
        var talk = new OneConversation().Begin();
        talk.Choose(("about whom", "me"), ("age", "340"), ("where now", "near the clinic"));
        Assert.Contains(talk.Replies, r => r is Reply.Say { Text: "number out of range" });
        talk.Choose(("age", "34"));
        while (talk.Asked!.Name.Screen != "hearing changed on")
            talk.Answer(Swimmer, most: 1);

        talk.Choose(("hearing changed on", "2031-01-01"));

        Assert.Contains(talk.Replies, r => r is Reply.Say { Text: "date in the future" });
        Assert.Equal("hearing changed on", talk.Asked!.Name.Screen);
    }

    [Fact]
    public void An_ordinary_blocked_ear_is_done_in_at_most_twelve_screens_after_the_form()
    {
        var talk = new OneConversation().Begin().Form();

        var screens = talk.Answer(new Dictionary<string, string?>
        {
            ["hearing"] = "reduced",
            ["hearing worsened over"] = "91..36500",
            ["hearing changed on"] = "91..36500",
            ["blocked"] = "yes",
        });

        Assert.InRange(screens.Count, 1, 12);
        Assert.NotNull(talk.Told);
    }

    [Fact]
    public void Whoever_needs_the_emergency_number_is_told_so_within_three_screens_after_the_form()
    {
        var emergencies = OneConversation.Edition.Dialog.NamedFacts.Single(n => n.Id == "emergency sign");
        foreach (var fact in AskedFactsOf(emergencies.Rows.SelectMany(r => r.Conditions)).Distinct())
        {
            var talk = new OneConversation().Begin().Form();

            var screens = talk.Answer(new Dictionary<string, string?> { [OneConversation.Edition.Dialog.Facts[fact].Id] = "yes" }, most: 4);

            Assert.True(screens.Count <= 3 && talk.Told?.Level == "now", OneConversation.Edition.Dialog.Facts[fact].Id);
        }
    }

    static IEnumerable<int> AskedFactsOf(IEnumerable<Triage.Rules.Condition> conditions) =>
        conditions.SelectMany(c => c.Of.IsNamedFact
            ? AskedFactsOf(OneConversation.Edition.Dialog.NamedFacts[c.Of.Index].Rows.SelectMany(r => r.Conditions))
            : [c.Of.Index]);
}
