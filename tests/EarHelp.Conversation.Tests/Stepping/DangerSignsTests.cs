using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Turns;
using EarHelp.Triage.Asking;

namespace EarHelp.Conversation.Tests.Stepping;

public class DangerSignsTests
{
    [Fact]
    public void A_first_not_sure_brings_the_second_wording_of_just_that_sign()
    {
        var patient = new Patient().Tell("sight trouble", null).Answer().Answer();

        Assert.Equal(2, patient.Asked!.Name.Wording);
        Assert.Equal("danger signs", patient.Asked.Name.Screen);
        Assert.Equal("sight trouble", Assert.Single(patient.Asked.Facts).Fact);
    }

    [Fact]
    public void Only_the_second_not_sure_counts_as_unsure()
    {
        var patient = new Patient().Tell("chest pain", null).Answer().Answer();

        Assert.Null(patient.Told);

        patient.Answer();

        Assert.Equal(0, patient.Told!.Rank);
    }

    [Fact]
    public void A_no_in_the_second_wording_is_a_no()
    {
        var patient = new Patient().Tell("chest pain", null).Answer().Answer();

        patient.Choose(("chest pain", "no"));

        Assert.Equal("very ill", patient.Asked!.Name.Screen);
        Assert.Equal(1, patient.Asked.Name.Wording);
    }

    [Fact]
    public void A_certain_emergency_does_not_wait_for_a_second_wording()
    {
        var patient = new Patient().Tell("chest pain", "yes").Tell("sight trouble", null).Answer().Answer();

        Assert.Equal(0, patient.Told!.Rank);
        Assert.Contains(patient.Told.Answers, a => a is { Fact: "sight trouble", Value: null, IsRedFlag: true });
    }

    [Fact]
    public void Not_sure_about_anything_else_counts_at_once()
    {
        var patient = FirstToLastTests.Swimmer().Tell("looked at", null).UntilAsked("looked at").Answer();

        Assert.Equal(1, patient.Asked?.Name.Wording ?? 1);
        Assert.NotEqual("looked at", patient.Asked?.Name.Screen);
    }

    [Fact]
    public void None_of_these_answers_no_to_all_of_them()
    {
        var patient = new Patient().Answer();

        patient.Send(new TurnContent.Chosen([], NoneOfThese: true), patient.Asked!.Name);

        Assert.Equal("very ill", patient.Asked!.Name.Screen);
    }

    [Fact]
    public void None_of_these_together_with_a_sign_is_asked_again()
    {
        var patient = new Patient().Answer();

        patient.Send(new TurnContent.Chosen([new ChosenAnswer("chest pain", "yes", false)], NoneOfThese: true), patient.Asked!.Name);

        Assert.Contains("none and others", patient.Sayings);
        Assert.Equal("danger signs", patient.Asked!.Name.Screen);
    }

    [Fact]
    public void One_no_alone_does_not_answer_the_other_signs()
    {
        var patient = new Patient().Answer();

        patient.Choose(("chest pain", "no"));

        Assert.Equal("danger signs", patient.Asked!.Name.Screen);
        Assert.DoesNotContain(patient.Asked.Facts, f => f.Fact == "chest pain");
        Assert.Equal(QuestionKind.Checklist, patient.Asked.Kind);
    }

    [Fact]
    public void Yes_and_not_sure_to_one_sign_is_asked_again()
    {
        var patient = new Patient().Answer();

        patient.Choose(("chest pain", "yes"), ("chest pain", null));

        Assert.Contains("yes and unsure", patient.Sayings);
        Assert.Equal("danger signs", patient.Asked!.Name.Screen);
    }

    [Fact]
    public void Nothing_chosen_is_never_none_of_these()
    {
        var patient = new Patient().Answer();

        patient.Choose();

        Assert.Contains("nothing chosen", patient.Sayings);
        Assert.Equal("danger signs", patient.Asked!.Name.Screen);
    }
}
