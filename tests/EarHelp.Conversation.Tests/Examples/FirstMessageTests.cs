using EarHelp.Content.Examples;
using EarHelp.Content.Sources;

namespace EarHelp.Conversation.Tests.Examples;

public sealed class FirstMessageTests
{
    static readonly Lazy<SavedQuestions> Saved = new(() => SavedQuestions.Of(
        Some.Edition,
        ExamplePatients.Check(SourceFolder.ReadExamples(SourceFolder.FindRoot(AppContext.BaseDirectory)!), Some.Edition.Edition, Some.Edition.Assessor).Runs,
        Some.Morning));

    [Fact]
    public void Every_example_patient_is_told_the_same_after_a_first_message() => Assert.Empty(Saved.Value.Otherwise);

    [Fact]
    public void A_first_message_saves_more_example_patients_a_question_than_it_costs_one() =>
        Assert.True(Saved.Value.Typed.Zip(Saved.Value.Tapped).Sum(p => Math.Sign(p.First - p.Second)) < 0);

    [Fact]
    public void A_first_message_costs_no_example_patient_more_than_the_read_back_and_two_questions() =>
        Assert.Equal(string.Empty, string.Join(",", Saved.Value.Typed.Zip(Saved.Value.Tapped).Where(p => p.First > p.Second + 3).Select(p => p.First - p.Second)));
}
