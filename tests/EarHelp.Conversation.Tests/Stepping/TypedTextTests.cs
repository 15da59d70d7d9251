using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Turns;

namespace EarHelp.Conversation.Tests.Stepping;

public class TypedTextTests
{
    static int EarsAffected => Some.Edition.Dialog.FindFact("ears affected")!.Index;

    [Fact]
    public void An_emergency_phrase_shows_its_text_at_once_and_is_asked_first()
    {
        var patient = new Patient().Type("my left ear is dull and my face has dropped");

        Assert.Contains(patient.Alarms, a => a.Signpost == "face drooping");
        Assert.Equal("danger signs", patient.Asked!.Name.Screen);
        Assert.Equal("face drooping", Assert.Single(patient.Asked.Facts).Fact);
    }

    [Fact]
    public void A_typed_sign_never_settles_by_itself()
    {
        var patient = new Patient().Type("slurred speech").Choose(("speech trouble", "no"));

        Assert.Null(patient.Told);
        Assert.Equal("form", patient.Asked!.Name.Screen);
    }

    [Fact]
    public void A_sign_typed_third_is_asked_at_once()
    {
        var patient = new Patient().Answer().Answer().Type("now I have a weak arm").Choose(("arm or leg weak", "yes"));

        Assert.Equal(0, patient.Told!.Rank);
    }

    [Fact]
    public void A_denied_sign_still_leads_to_the_direct_question()
    {
        var patient = new Patient().Type("no slurred speech");

        Assert.Empty(patient.Alarms);
        Assert.Contains(patient.Asked!.Facts, f => f.Fact == "speech trouble");
    }

    [Fact]
    public void A_denial_in_text_never_answers_a_danger_sign()
    {
        var patient = new Patient().Answer();

        patient.Type("no chest pain, no fever");

        Assert.DoesNotContain(patient.State.Answers, a => a.Of.Fact == Some.Edition.Dialog.FindFact("chest pain")!.Index);
    }

    [Fact]
    public void None_of_these_may_be_typed_on_a_checklist()
    {
        var patient = new Patient().Answer().Type("None of these");

        Assert.Equal("very ill", patient.Asked!.Name.Screen);
    }

    [Fact]
    public void The_form_may_be_typed_in_one_line()
    {
        var patient = new Patient().Type("me, 45, near the clinic");

        Assert.Equal("danger signs", patient.Asked!.Name.Screen);
    }

    [Fact]
    public void An_option_may_be_typed_with_one_letter_wrong()
    {
        var patient = new Patient().Choose(("about whom", "me"), ("age", "45")).Type("abraod");

        Assert.Equal("danger signs", patient.Asked!.Name.Screen);
    }

    [Fact]
    public void A_word_about_something_that_is_no_danger_sign_is_read_back()
    {
        var patient = new Patient().Answer().Type("it is my right ear");

        var confirm = Assert.IsType<Reply.Confirm>(patient.Replies[^1]);
        Assert.Equal(("ears affected", "right"), (confirm.Understood[0].Fact, confirm.Understood[0].Value));

        patient.Type("yes");

        Assert.Contains(patient.State.Answers, a => a.Of.Fact == EarsAffected);
        Assert.Equal("danger signs", patient.Asked!.Name.Screen);
    }

    [Fact]
    public void A_read_back_that_is_refused_is_no_answer()
    {
        var patient = new Patient().Answer().Type("it is my right ear").Type("no");

        Assert.DoesNotContain(patient.State.Answers, a => a.Of.Fact == EarsAffected);
        Assert.Equal("danger signs", patient.Asked!.Name.Screen);
    }

    [Fact]
    public void Three_messages_that_are_not_understood_lead_to_a_person()
    {
        var patient = new Patient().Answer();

        Assert.Contains("not understood 1", patient.Type("qwertz").Sayings);
        Assert.Contains("not understood 2", patient.Type("asdf").Sayings);
        Assert.Contains("not understood 3", patient.Type("yxcv").Sayings);
        Assert.Equal("danger signs", patient.Asked!.Name.Screen);
    }

    [Fact]
    public void An_understood_message_ends_the_row_of_those_not_understood()
    {
        var patient = new Patient().Answer().Type("qwertz").Type("none of these").Type("asdf");

        Assert.Contains("not understood 1", patient.Sayings);
    }

    [Fact]
    public void An_empty_message_is_said_to_be_empty()
    {
        var patient = new Patient().Type("   ");

        Assert.Contains("text empty", patient.Sayings);
    }

    [Fact]
    public void A_sign_typed_after_the_outcome_is_taken_as_something_that_has_changed()
    {
        var patient = FirstToLastTests.Swimmer().ToTheEnd().Type("now my face has dropped");

        Assert.Contains(patient.Alarms, a => a.Signpost == "face drooping");
        Assert.Equal("face drooping", Assert.Single(patient.Asked!.Facts).Fact);

        patient.Choose(("face drooping", "yes"));

        Assert.Equal(0, patient.Told!.Rank);
    }

    [Fact]
    public void Text_never_lowers_a_level()
    {
        // Whatever is typed along the way, somebody who then answers the same gets the same level, or a more urgent one.
        string[] said =
        [
            "it is nothing", "no pain at all", "my hearing is fine", "none", "I feel well, no fever, not dizzy",
            "hearing as ever", "a doctor looked at it, all clear", "just a bit of water",
        ];
        var quiet = FirstToLastTests.Swimmer().ToTheEnd();
        foreach (var text in said)
        {
            var patient = FirstToLastTests.Swimmer();
            var screens = new HashSet<string>();
            while (patient.Asked is { } question)
            {
                if (screens.Add(question.Name.Screen))
                    patient.Type(text);
                if (patient.Replies[^1] is Reply.Confirm)
                    patient.Type("no");
                if (patient.Asked is not null)
                    patient.Answer();
            }

            Assert.True(patient.Told!.Rank <= quiet.Told!.Rank, text);
        }
    }
}
