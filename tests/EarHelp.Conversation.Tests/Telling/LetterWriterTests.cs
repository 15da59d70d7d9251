using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Telling;
using EarHelp.Conversation.Tests.Stepping;
using EarHelp.Conversation.Turns;
using NodaTime;

namespace EarHelp.Conversation.Tests.Telling;

public class LetterWriterTests
{
    [Fact]
    public void Every_text_that_the_conversation_says_is_in_the_shipped_words()
    {
        var wording = Some.Edition.Edition.Wordings["en"];

        Assert.Empty(RequiredWords.Interface.Where(k => !wording.Interface.ContainsKey(k)));
        Assert.Empty(RequiredWords.Pages.Where(k => !wording.Pages.ContainsKey(k)));
    }

    [Fact]
    public void The_plan_is_told_in_its_order()
    {
        var sections = Sections(FirstToLastTests.Swimmer().ToTheEnd());

        Assert.Equal(sections.Select(s => s.Kind).Order(), sections.Select(s => s.Kind));
        Assert.Contains(sections, s => s.Kind == OutcomeSectionKind.Where);
        Assert.Contains(sections, s => s.Kind == OutcomeSectionKind.LeaveAlone);
        Assert.Contains(sections, s => s.Kind == OutcomeSectionKind.MoreUrgent);
        Assert.Contains(sections, s => s.Kind == OutcomeSectionKind.Why);
        Assert.Contains(sections, s => s.Kind == OutcomeSectionKind.ForTheClinician);
        Assert.Contains(sections, s => s.Kind == OutcomeSectionKind.IfNobodyAnswered);
        Assert.Contains(sections, s => s.Kind == OutcomeSectionKind.WhoDecides);
    }

    [Fact]
    public void A_limit_is_said_as_a_date_and_a_time_with_its_zone()
    {
        var sections = Sections(FirstToLastTests.Swimmer().ToTheEnd());

        var howSoon = PlainText.Of(sections.Single(s => s.Kind == OutcomeSectionKind.HowSoon).Text);
        Assert.Contains("10:00 am on Wednesday 25 November 2026, UK time", howSoon, StringComparison.Ordinal);
    }

    [Fact]
    public void No_blank_is_left_open_on_any_way_through_the_conversation()
    {
        foreach (var patient in new[] { FirstToLastTests.Swimmer(), new Patient().Tell("chest pain", "yes"), new Patient().Tell("about whom", "someone else").Tell("ears affected", "both") })
        {
            while (patient.Asked is not null)
            {
                AssertFilled(patient);
                patient.Answer();
            }

            AssertFilled(patient);
        }
    }

    [Fact]
    public void Someone_else_is_never_told_about_your_ear()
    {
        var patient = new Patient().Tell("about whom", "someone else").Tell("ears affected", "left").UntilAsked("hearing");

        var text = Text(patient);

        Assert.Contains("their left ear", text, StringComparison.Ordinal);
        Assert.DoesNotContain("your left ear", text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_limit_that_has_passed_is_said_to_have_passed()
    {
        var patient = FirstToLastTests.Swimmer().ToTheEnd();
        var writer = Some.Edition.WriterOf(patient.State);

        var parts = writer.Write(new Reply.Outcome(patient.Told!), patient.Now + Duration.FromHours(30));

        Assert.Contains("has passed", PlainText.Of(parts, writer), StringComparison.Ordinal);
    }

    [Fact]
    public void A_changed_answer_is_told_with_the_one_before()
    {
        var patient = new Patient().Tell("chest pain", "yes").ToTheEnd();
        patient.Send(new TurnContent.Change("danger signs", null)).Tell("chest pain", "no").ToTheEnd();

        var clinician = PlainText.Of(Sections(patient).Single(s => s.Kind == OutcomeSectionKind.ForTheClinician).Text);

        Assert.Contains("Before: Yes. Now: No.", clinician, StringComparison.Ordinal);
    }

    [Fact]
    public void Dropped_answers_are_named_in_words()
    {
        var patient = FirstToLastTests.Swimmer().ToTheEnd();
        patient.Send(new TurnContent.Change("hearing", Triage.Answers.Ear.Right)).Choose(("hearing", "usual"));

        var text = Text(patient);

        Assert.DoesNotContain("@right", text, StringComparison.Ordinal);
        Assert.Contains("(right ear)", text, StringComparison.Ordinal);
    }

    static void AssertFilled(Patient patient)
    {
        var text = Text(patient);
        Assert.DoesNotContain("{", text, StringComparison.Ordinal);
        Assert.DoesNotContain("fact:", text, StringComparison.Ordinal);
    }

    static System.Collections.Immutable.ImmutableArray<OutcomeSection> Sections(Patient patient) =>
        Assert.IsType<LetterPart.OutcomeShown>(
            Assert.Single(Some.Edition.WriterOf(patient.State).Write(new Reply.Outcome(patient.Told!), patient.Now))).Sections;

    static string Text(Patient patient)
    {
        var writer = Some.Edition.WriterOf(patient.State);
        return PlainText.Of([.. patient.Replies.SelectMany(r => writer.Write(r, patient.Now))], writer);
    }
}
