using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Turns;

namespace EarHelp.Conversation.Tests.Stepping;

public class StaleAnswersTests
{
    [Fact]
    public void An_answer_to_an_older_question_is_shown_and_never_applied()
    {
        var patient = new Patient();
        var form = patient.Asked!.Name;
        patient.Answer();
        var before = patient.State.Answers;

        patient.Send(new TurnContent.Chosen([new ChosenAnswer("age", "12", false)], false), form);

        var say = Assert.Single(patient.Replies.OfType<Reply.Say>(), s => s.Text == "stale answer");
        Assert.Contains(say.Blanks, b => b is { Name: "answer", Value: "answer:age=12" });
        Assert.Equal(before.ToArray(), patient.State.Answers.ToArray());
        Assert.Equal("danger signs", patient.Asked!.Name.Screen);
    }

    [Fact]
    public void A_danger_sign_in_a_stale_answer_shows_its_text_and_is_asked_next()
    {
        var patient = new Patient().Answer();
        var signs = patient.Asked!.Name;
        patient.Answer();

        patient.Send(new TurnContent.Chosen([new ChosenAnswer("chest pain", "yes", false)], false), signs);

        Assert.Contains(patient.Alarms, a => a.Level == "now");
        Assert.Equal("very ill", patient.Asked!.Name.Screen);
        Assert.Equal("chest pain", Assert.Single(patient.Answer().Asked!.Facts).Fact);
        Assert.Null(patient.Told);
    }

    [Fact]
    public void A_bare_no_typed_to_an_older_question_answers_nothing()
    {
        var patient = new Patient().Answer();
        var older = patient.Asked!.Name;
        patient.UntilAsked("ears affected");
        var before = patient.State.Answers.Length;

        patient.Send(new TurnContent.Typed("right"), older);

        Assert.Contains("stale answer", patient.Sayings);
        Assert.Equal(before, patient.State.Answers.Length);
    }

    [Fact]
    public void Two_tabs_that_take_turns_apply_each_answer_to_its_own_question_only()
    {
        var patient = new Patient();
        for (var i = 0; i < 6; i++)
        {
            var seenByBoth = patient.Asked!.Name;
            patient.Answer();
            var answers = patient.State.Answers;

            patient.Send(new TurnContent.Chosen([], NoneOfThese: true), seenByBoth);

            Assert.Equal(answers.ToArray(), patient.State.Answers.ToArray());
        }
    }
}
