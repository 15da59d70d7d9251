using EarHelp.Conversation.Turns;
using NodaTime;

namespace EarHelp.Conversation.Tests.Stepping;

public class TimeTests
{
    [Fact]
    public void Waiting_never_makes_it_less_urgent()
    {
        // Gone within three days, 29 days ago: RF-031 makes it two weeks after day 30 (NG98 1.1.2 and 1.1.3).
        var prompt = Late(0).ToTheEnd();
        var late = Late(0).UntilAsked("swam lately");
        late.Now += Duration.FromDays(5);
        late.ToTheEnd();

        Assert.Equal(prompt.Told!.Level, late.Told!.Level);
        Assert.True(late.Told.SeenBy <= prompt.Told.SeenBy);
    }

    [Fact]
    public void The_limit_runs_from_the_turn_that_first_reached_the_level()
    {
        var patient = FirstToLastTests.Swimmer().UntilAsked("swam lately");
        patient.Now += Duration.FromHours(3);

        patient.ToTheEnd();

        Assert.Equal(Some.Morning + Duration.FromHours(24), patient.Told!.SeenBy);
    }

    [Fact]
    public void An_outcome_that_is_told_again_keeps_its_deadline_and_says_when_it_has_passed()
    {
        var patient = FirstToLastTests.Swimmer().ToTheEnd();
        var before = patient.Told!;
        patient.Now += Duration.FromHours(25);

        patient.Send(new TurnContent.Change("lately", null)).ToTheEnd();

        Assert.Equal(before.SeenBy, patient.Told!.SeenBy);
        Assert.True(patient.Told.IsOverdue);
        Assert.DoesNotContain("this clinic", patient.Told.Destinations.Select(d => d.Id));
        Assert.True(patient.Told.ClinicIsTooLate);
    }

    [Fact]
    public void A_clinic_that_is_closed_until_after_the_limit_is_left_out()
    {
        // Saturday afternoon; the clinic opens again on Monday.
        var patient = FirstToLastTests.Swimmer().Tell("hearing changed on", "2026-11-27");
        patient.Now = Instant.FromUtc(2026, 11, 28, 15, 0);

        patient.ToTheEnd();

        Assert.Equal("ear doctors on call", patient.Told!.Destinations[0].Id);
        Assert.True(patient.Told.ClinicIsTooLate);
    }

    [Fact]
    public void An_answer_is_due_well_before_the_limit()
    {
        var told = FirstToLastTests.Swimmer().ToTheEnd().Told!;

        Assert.True(told.AnswerBy > told.DecidedAt);
        Assert.True(told.AnswerBy < told.SeenBy);
    }

    [Fact]
    public void A_date_that_has_not_come_is_asked_again()
    {
        var patient = FirstToLastTests.Swimmer().UntilAsked("hearing changed on").Choose(("hearing changed on", "2026-11-25"));

        Assert.Contains("date in the future", patient.Sayings);
        Assert.Equal("hearing changed on", patient.Asked!.Name.Screen);
    }

    [Fact]
    public void An_age_out_of_range_is_asked_again_and_the_rest_of_the_form_is_kept()
    {
        var patient = new Patient().Choose(("about whom", "me"), ("age", "450"), ("where now", "abroad"));

        Assert.Contains("number out of range", patient.Sayings);
        Assert.Equal("age", Assert.Single(patient.Asked!.Facts).Fact);
    }

    [Fact]
    public void Answers_that_cannot_stand_together_count_as_not_sure_until_one_is_put_right()
    {
        var patient = FirstToLastTests.Swimmer().ToTheEnd();

        patient.Send(new TurnContent.Change("hearing worsened over", Triage.Answers.Ear.Right)).Choose(("hearing worsened over", "91..36500"));

        Assert.Contains("answers disagree", patient.Sayings);
        Assert.Equal(2, patient.State.Doubted.Length);
        Assert.Equal("hearing worsened over", patient.Asked!.Name.Screen);

        patient.Choose((patient.Asked!.Facts[0].Fact, "0..3"));

        Assert.Empty(patient.State.Doubted);
        Assert.Equal("within a day", patient.ToTheEnd().Told!.Level);
    }

    [Fact]
    public void A_row_that_counts_from_a_date_has_its_limit_from_that_date()
    {
        var from = Some.Edition.Dialog.FindFact("hearing changed on")!.Index;
        var edition = Some.WithDialog(d => d with { Rules = [.. d.Rules.Select(r => r.Id == "RF-033.1" ? r with { CountsFrom = from } : r)] });

        var told = FirstToLastTests.Swimmer(edition).ToTheEnd().Told!;

        Assert.Equal(Instant.FromUtc(2026, 11, 23, 0, 0), told.SeenBy);
        Assert.True(told.IsOverdue);
    }

    static Patient Late(int daysMore) => FirstToLastTests.Swimmer()
        .Tell("hearing changed on", (new LocalDate(2026, 11, 24).PlusDays(-29 - daysMore)).ToString("uuuu-MM-dd", null));
}
