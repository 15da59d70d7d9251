using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Turns;
using EarHelp.Triage.Answers;
using NodaTime;

namespace EarHelp.Conversation.Tests.Stepping;

public class ChangingAnswersTests
{
    [Fact]
    public void An_earlier_answer_counts_until_the_new_one_is_given()
    {
        var patient = FirstToLastTests.Swimmer().ToTheEnd();

        patient.Send(new TurnContent.Change("hearing", Ear.Right));

        Assert.Equal("hearing", patient.Asked!.Name.Screen);
        Assert.Contains(patient.State.Answers, a => a.Of.Fact == Some.Edition.Dialog.FindFact("hearing")!.Index);
    }

    [Fact]
    public void What_no_longer_applies_is_dropped_and_named()
    {
        var patient = FirstToLastTests.Swimmer().ToTheEnd();

        patient.Send(new TurnContent.Change("hearing", Ear.Right)).Choose(("hearing", "usual"));

        var say = Assert.Single(patient.Replies.OfType<Reply.Say>(), s => s.Text == "answers dropped");
        Assert.Contains(say.Blanks, b => b.Value == "fact:hearing worsened over@right");
        Assert.Contains(say.Blanks, b => b.Value == "fact:hearing changed on@right");
    }

    [Fact]
    public void Answers_that_still_apply_are_kept()
    {
        var patient = FirstToLastTests.Swimmer().ToTheEnd();
        var before = patient.State.Answers.Length;

        patient.Send(new TurnContent.Change("looked at", Ear.Right)).Choose(("looked at", "wax"));

        Assert.Contains("nothing dropped", patient.Sayings);
        Assert.True(patient.State.Answers.Length >= before);
    }

    [Fact]
    public void Naming_the_other_ear_drops_the_first_ears_answers()
    {
        var patient = FirstToLastTests.Swimmer().ToTheEnd();

        patient.Send(new TurnContent.Change("ears affected", null)).Choose(("ears affected", "left"));

        Assert.Contains("answers dropped", patient.Sayings);
        Assert.DoesNotContain(patient.State.Answers, a => a.Of.Ear == Ear.Right);
        Assert.Equal(Ear.Left, patient.Asked!.Name.Ear);
    }

    [Fact]
    public void Taking_back_an_answer_that_led_to_the_emergency_number_is_asked_in_other_words()
    {
        var patient = new Patient().Tell("chest pain", "yes").ToTheEnd();

        patient.Send(new TurnContent.Change("danger signs", null));

        Assert.Equal(2, patient.Asked!.Name.Wording);
        Assert.Contains(patient.Alarms, a => a.Level == "now");
    }

    [Fact]
    public void The_emergency_text_stays_in_sight_and_both_answers_reach_the_clinician()
    {
        var patient = new Patient().Tell("chest pain", "yes").ToTheEnd();
        patient.Send(new TurnContent.Change("danger signs", null)).Tell("chest pain", "no").Answer();

        Assert.Contains("emergency stays", patient.Sayings);

        while (patient.Asked is not null)
        {
            Assert.Contains(patient.Alarms, a => a.Level == "now");
            patient.Answer();
        }

        Assert.Contains(patient.Alarms, a => a.Level == "now");
        var told = Assert.Single(patient.Told!.Answers, a => a.Fact == "chest pain");
        Assert.Equal(("no", "yes"), (told.Value, told.Earlier));
        Assert.True(patient.Told.Rank > 0);
    }

    [Fact]
    public void Starting_over_does_not_hide_that_an_answer_led_to_the_emergency_number()
    {
        var patient = new Patient().Tell("chest pain", "yes").ToTheEnd();

        patient.Send(new TurnContent.StartOver()).Tell("chest pain", "no").ToTheEnd();

        Assert.Contains(patient.Alarms, a => a.Level == "now");
        Assert.Equal("yes", patient.Told!.Answers.Single(a => a.Fact == "chest pain").Earlier);
    }

    [Fact]
    public void Starting_over_asks_the_form_again()
    {
        var patient = FirstToLastTests.Swimmer().ToTheEnd();

        patient.Send(new TurnContent.StartOver());

        Assert.Equal("form", patient.Asked!.Name.Screen);
        Assert.Empty(patient.State.Answers);
        Assert.False(patient.State.IsFinished);
    }

    [Fact]
    public void A_question_that_was_never_answered_cannot_be_changed()
    {
        var patient = new Patient().Answer();
        var open = patient.Asked!.Name.Screen;

        patient.Send(new TurnContent.Change("hearing", Ear.Left));

        Assert.Equal(open, patient.Asked!.Name.Screen);
    }

    [Fact]
    public void Any_order_of_edits_ends_in_the_assessment_of_the_final_answers()
    {
        // Seeded edits; the level, the places and the advice must be those of somebody who said the final answers at once.
        var random = new Random(20261124);
        (string Fact, string Screen, Ear? Ear, string[] Values)[] edits =
        [
            ("hearing", "hearing", Ear.Right, ["reduced", "gone", "usual"]),
            ("looked at", "looked at", Ear.Right, ["nobody", "wax"]),
            ("swam lately", "lately", null, ["yes", "no"]),
            ("spinning", "other signs", null, ["yes", "no"]),
            ("ears affected", "ears affected", null, ["right", "both", "left"]),
            ("age", "form", null, ["45", "17", "70"]),
        ];
        for (var round = 0; round < 25; round++)
        {
            var patient = FirstToLastTests.Swimmer().ToTheEnd();
            var fresh = FirstToLastTests.Swimmer();
            for (var i = 0; i < 5; i++)
            {
                var edit = edits[random.Next(edits.Length)];
                var value = edit.Values[random.Next(edit.Values.Length)];
                patient.Send(new TurnContent.Change(edit.Screen, edit.Ear));
                if (patient.Asked?.Name.Screen != edit.Screen || !patient.Asked.Facts.Any(f => f.Fact == edit.Fact))
                    continue;
                var fact = edit.Ear is null ? edit.Fact : edit.Fact + "@right";
                patient.Tell(fact, value).ToTheEnd();
                fresh.Tell(fact, value);
            }

            patient.ToTheEnd();
            fresh.ToTheEnd();

            Assert.Equal(fresh.Told!.Level, patient.Told!.Level);
            Assert.Equal(fresh.Told.Destinations.ToArray(), patient.Told.Destinations.ToArray());
            Assert.Equal(fresh.Told.Advice.Order(ByName), patient.Told.Advice.Order(ByName));
        }
    }

    static readonly Comparer<AdviceTold> ByName = Comparer<AdviceTold>.Create((a, b) => string.CompareOrdinal($"{a}", $"{b}"));
}
