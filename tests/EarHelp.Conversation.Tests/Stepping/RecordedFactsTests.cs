using EarHelp.Conversation.Records;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Stepping;
using EarHelp.Conversation.Telling;
using EarHelp.Conversation.Turns;
using EarHelp.Triage.Answers;
using NodaTime;

namespace EarHelp.Conversation.Tests.Stepping;

public class RecordedFactsTests
{
    static readonly Instant InTwoWeeks = Some.Morning + Duration.FromDays(14);

    static readonly RecordedFact Hole = new("hole ever", Ear.Left, "yes", null);

    static readonly RecordedFact Allergy = new("drop allergy", null, "yes", null);

    static readonly RecordedFact Cleaned = new("ear cleaned lately", null, "yes", InTwoWeeks);

    static bool GetsDrops(Patient patient) => patient.Told!.Advice.Any(a => a.Id == "softening drops");

    /// <summary>A blocked left ear, and nothing that stands against drops.</summary>
    static Patient Blocked(params RecordedFact[] recorded) =>
        new Patient(null, [.. recorded]).Tell("ears affected", "left").Tell("blocked", "yes");

    [Fact]
    public void Without_a_record_a_blocked_ear_gets_drops() => Assert.True(GetsDrops(Blocked().ToTheEnd()));

    [Fact]
    public void What_is_recorded_is_said_first_and_never_asked()
    {
        var patient = Blocked(Hole, Allergy);
        Assert.Contains("known from the visit", patient.Sayings);

        while (patient.Asked is { } question)
        {
            Assert.DoesNotContain(question.Facts, f => f.Fact is "hole ever" or "drop allergy");
            patient.Answer();
        }

        Assert.False(GetsDrops(patient));
    }

    [Fact]
    public void A_hole_in_one_ear_leaves_the_other_to_be_asked()
    {
        var patient = new Patient(null, Hole).Tell("ears affected", "right").Tell("blocked", "yes").UntilAsked("hole ever");

        Assert.Equal(Ear.Right, patient.Asked!.Name.Ear);
    }

    [Fact]
    public void A_hole_counts_while_nobody_knows_which_ear_it_is_about() =>
        Assert.False(GetsDrops(new Patient(null, Hole).Tell("ears affected", null).Tell("blocked", "yes").ToTheEnd()));

    [Fact]
    public void Starting_over_clears_no_record()
    {
        var patient = Blocked(Hole).ToTheEnd().Send(new TurnContent.StartOver()).ToTheEnd();

        Assert.False(GetsDrops(patient));
    }

    [Fact]
    public void Saying_that_something_has_changed_clears_no_record()
    {
        var patient = Blocked(Cleaned, Hole).ToTheEnd().Send(new TurnContent.SomethingChanged()).ToTheEnd();

        Assert.False(GetsDrops(patient));
    }

    [Fact]
    public void Typing_the_opposite_clears_no_record()
    {
        var patient = Blocked(Allergy).Type("I have no allergy to drops").ToTheEnd();

        Assert.False(GetsDrops(patient));
    }

    [Fact]
    public void What_counts_for_a_time_is_asked_after_it()
    {
        var soon = Blocked(Cleaned);
        soon.UntilAsked("flight lately");
        Assert.DoesNotContain(soon.Asked!.Facts, f => f.Fact == "ear cleaned lately");

        var later = Blocked(Cleaned);
        later.Now = InTwoWeeks;
        later.UntilAsked("flight lately");
        Assert.Contains(later.Asked!.Facts, f => f.Fact == "ear cleaned lately");
    }

    [Fact]
    public void The_plan_tells_patient_and_clinician_what_is_from_the_visit()
    {
        var patient = Blocked(Allergy).ToTheEnd();

        Assert.Equal(["drop allergy"], patient.Told!.Answers.Where(a => a.IsRecorded).Select(a => a.Fact));
        var letter = Some.Edition.WriterOf("en", isSelf: true);
        var text = PlainText.Of(letter.Write(new Reply.Outcome(patient.Told!), patient.Now), letter);
        Assert.Contains("Yes (recorded at the visit)", text, StringComparison.Ordinal);
        Assert.Contains("What was recorded at the visit counts too, whatever was answered here.", text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_record_goes_with_its_conversation_into_a_corrected_edition()
    {
        var patient = Blocked(Hole, Cleaned, Allergy);
        var corrected = Some.WithDialog(d => d with { ScreensAtMost = d.ScreensAtMost + 1 });

        Assert.Equal(patient.State.Recorded.AsEnumerable(), Moving.Into(corrected, Some.Edition, patient.State).Recorded);
    }

    [Fact]
    public void A_later_turn_cannot_bring_a_record()
    {
        var patient = Blocked().Send(new TurnContent.Begin("en") { Recorded = [Hole] });

        Assert.Empty(patient.State.Recorded);
    }

    [Fact]
    public void A_correction_closes_what_was_open_and_tells_the_outcome_anew()
    {
        var patient = Blocked().ToTheEnd();
        Assert.True(GetsDrops(patient));

        patient.Send(new TurnContent.RecordedAnew(2, [Hole]));

        Assert.Contains("visit corrected", patient.Sayings);
        Assert.Contains("known from the visit", patient.Sayings);
        Assert.False(GetsDrops(patient.ToTheEnd()));
    }

    [Fact]
    public void What_a_correction_takes_back_is_asked_and_never_taken_for_a_no()
    {
        var patient = Blocked(Hole).ToTheEnd();

        patient.Send(new TurnContent.RecordedAnew(2, [])).UntilAsked("hole ever");

        Assert.Contains(patient.Asked!.Facts, f => f.Fact == "hole ever");
        Assert.True(GetsDrops(patient.ToTheEnd()));
    }

    [Fact]
    public void A_version_that_comes_after_a_later_one_changes_nothing_and_says_nothing()
    {
        var patient = Blocked(Cleaned).ToTheEnd().Send(new TurnContent.RecordedAnew(3, [Hole]));

        patient.Send(new TurnContent.RecordedAnew(2, []));

        Assert.Equal(3, patient.State.RecordVersion);
        Assert.Empty(patient.Replies);
        Assert.Single(patient.State.Recorded);
    }

    [Fact]
    public void A_correction_is_kept_as_it_came()
    {
        var turn = Some.Turn(new TurnContent.RecordedAnew(2, [Hole, Cleaned]));

        var read = Assert.IsType<TurnContent.RecordedAnew>(TurnJson.ReadTurn(TurnJson.WriteTurn(turn)).Content);

        Assert.Equal((2, 2), (read.Version, read.Recorded.Length));
    }

    [Fact]
    public void The_first_turn_keeps_the_record_as_it_came()
    {
        var turn = Some.Turn(new TurnContent.Begin("en") { Recorded = [Hole, Cleaned] });

        var read = Assert.IsType<TurnContent.Begin>(TurnJson.ReadTurn(TurnJson.WriteTurn(turn)).Content);

        Assert.Equal([Hole, Cleaned], read.Recorded!.Value.AsEnumerable());
    }
}
