using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Stepping;
using EarHelp.Conversation.Turns;
using NodaTime;

namespace EarHelp.Conversation.Tests.Stepping;

public class FirstToLastTests
{
    [Fact]
    public void Greets_and_asks_the_form_first()
    {
        var patient = new Patient();

        Assert.IsType<Reply.Say>(patient.Replies[0]);
        Assert.Equal("form", patient.Asked!.Name.Screen);
        Assert.Equal(["about whom", "age", "where now"], patient.Asked.Facts.Select(f => f.Fact));
    }

    [Fact]
    public void The_swimmer_is_seen_within_a_day_by_this_clinic_and_gets_no_drops()
    {
        // BC: a sudden dulling of hearing that nobody has looked into: NG98 1.1.2, within 24 hours.
        var patient = Swimmer().ToTheEnd();

        Assert.Equal("within a day", patient.Told!.Level);
        Assert.Equal("this clinic", patient.Told.Destinations[0].Id);
        Assert.Equal(Some.Morning + Duration.FromHours(24), patient.Told.SeenBy);
        Assert.DoesNotContain("softening drops", patient.Told.Advice.Select(a => a.Id));
        Assert.Contains("no drops until seen", patient.Told.Advice.Select(a => a.Id));
        Assert.False(patient.Told.MayTreat);
    }

    [Fact]
    public void A_blocked_ear_takes_at_most_twelve_screens()
    {
        var patient = Swimmer().ToTheEnd();

        Assert.InRange(patient.ScreensAfterForm, 1, 12);
    }

    [Fact]
    public void A_stroke_sign_leads_to_the_emergency_number_on_the_first_screen_after_the_form()
    {
        var patient = new Patient().Tell("face drooping", "yes").ToTheEnd();

        Assert.Equal(0, patient.Told!.Rank);
        Assert.Equal("emergency service", patient.Told.Destinations[0].Id);
        Assert.True(patient.Told.IsEarly);
        Assert.Equal(1, patient.ScreensAfterForm);
    }

    [Fact]
    public void Not_sure_to_everything_is_asked_in_other_words_first_and_then_counts_as_the_worst()
    {
        var patient = new Patient();
        foreach (var fact in Some.Edition.Dialog.Facts.Where(f => f.AskIn != Triage.Facts.AskIn.Form))
            patient.Tell(fact.Id, null);
        patient.Answer().Answer();

        Assert.Equal(2, patient.Asked!.Name.Wording);

        patient.ToTheEnd();

        Assert.Equal(0, patient.Told!.Rank);
        Assert.All(patient.Told.Answers.Where(a => a.IsRedFlag), a => Assert.Null(a.Value));
    }

    [Fact]
    public void Both_ears_are_asked_about_and_the_more_urgent_one_decides()
    {
        var patient = Swimmer().Tell("ears affected", "both").Tell("hearing@left", "usual").ToTheEnd();

        Assert.Equal("within a day", patient.Told!.Level);
        Assert.Contains(patient.Told.Reasons, r => r is { Decides: true, Ear: Triage.Answers.Ear.Right });
        Assert.Contains(patient.Told.Answers, a => a is { Fact: "hearing", Ear: Triage.Answers.Ear.Left, Value: "usual" });
    }

    [Fact]
    public void An_ear_that_cannot_be_told_is_asked_about_once_and_gets_no_drops()
    {
        var patient = new Patient().Tell("ears affected", null).Tell("blocked", "yes").UntilAsked("hearing");

        Assert.Equal(Triage.Answers.Ear.Either, patient.Asked!.Name.Ear);

        patient.ToTheEnd();

        Assert.DoesNotContain("softening drops", patient.Told!.Advice.Select(a => a.Id));
    }

    [Fact]
    public void A_child_is_handed_over_within_a_day_at_most()
    {
        var patient = new Patient().Tell("about whom", "someone else").Tell("age", "9").ToTheEnd();

        var limit = Some.Morning + Duration.FromHours(24);
        Assert.True(patient.Told!.SeenBy <= limit);
    }

    [Fact]
    public void A_reason_names_the_answers_that_made_the_row_match()
    {
        var patient = Swimmer().ToTheEnd();

        var reason = patient.Told!.Reasons.First(r => r.Decides);
        Assert.Contains(reason.Blanks, b => b is { Name: "hearing", Value: "reduced" });
    }

    [Fact]
    public void Asking_for_a_link_leaves_the_open_question_open()
    {
        var patient = new Patient();
        var open = patient.Asked!.Name;

        patient.Send(new TurnContent.AskForLink());

        Assert.Contains("return link", patient.Sayings);
        Assert.Equal(open, patient.Asked!.Name);
    }

    internal static Patient Swimmer(ServedEdition? edition = null) => new Patient(edition)
        .Tell("ears affected", "right")
        .Tell("hearing", "reduced")
        .Tell("hearing worsened over", "0")
        .Tell("hearing changed on", "2026-11-22")
        .Tell("looked at", "nobody")
        .Tell("swam lately", "yes");
}
