using EarHelp.Conversation.Turns;
using NodaTime;

namespace EarHelp.Conversation.Tests.Stepping;

public class SomethingChangedTests
{
    [Fact]
    public void Asks_the_danger_signs_again()
    {
        var patient = FirstToLastTests.Swimmer().ToTheEnd().Send(new TurnContent.SomethingChanged());

        Assert.Contains("plan changed lead", patient.Sayings);
        Assert.Equal("danger signs", patient.Asked!.Name.Screen);
    }

    [Fact]
    public void Never_lowers_the_level_or_moves_the_deadline_later()
    {
        var patient = FirstToLastTests.Swimmer().ToTheEnd();
        var before = patient.Told!;
        patient.Now += Duration.FromHours(2);

        patient.Send(new TurnContent.SomethingChanged()).Tell("hearing", "usual").ToTheEnd();

        Assert.Equal(before.Level, patient.Told!.Level);
        Assert.Equal(before.SeenBy, patient.Told.SeenBy);
        Assert.Contains("plan stays", patient.Sayings);
        Assert.DoesNotContain("softening drops", patient.Told.Advice.Select(a => a.Id));
        Assert.False(patient.Told.MayTreat);
    }

    [Fact]
    public void Raises_the_level_when_a_danger_sign_is_new()
    {
        var patient = FirstToLastTests.Swimmer().ToTheEnd();

        patient.Send(new TurnContent.SomethingChanged()).Tell("face drooping", "yes").ToTheEnd();

        Assert.Equal(0, patient.Told!.Rank);
    }

    [Fact]
    public void Asks_again_since_when_the_hearing_has_changed()
    {
        // A slow change that has suddenly become worse must not be judged by its old date.
        var patient = FirstToLastTests.Swimmer()
            .Tell("hearing worsened over", "91..36500").Tell("hearing changed on", "100..200").ToTheEnd();
        Assert.True(patient.Told!.Rank > 2);

        patient.Send(new TurnContent.SomethingChanged())
            .Tell("hearing", "gone").Tell("hearing worsened over", "0").Tell("hearing changed on", "0").ToTheEnd();

        Assert.Equal("within a day", patient.Told!.Level);
    }

    [Fact]
    public void Tells_an_emergency_again_at_once()
    {
        var patient = new Patient().Tell("chest pain", "yes").ToTheEnd();

        patient.Send(new TurnContent.SomethingChanged());

        Assert.Equal(0, patient.Told!.Rank);
    }

    [Fact]
    public void A_conversation_with_an_outcome_stays_finished_while_it_is_changed()
    {
        var patient = FirstToLastTests.Swimmer().ToTheEnd().Send(new TurnContent.SomethingChanged());

        Assert.True(patient.State.HasOutcome);
        Assert.False(patient.State.IsFinished);
    }
}
