using EarHelp.Content.Examples;
using EarHelp.Content.Problems;
using EarHelp.Content.Sources;
using EarHelp.Triage.Facts;

namespace EarHelp.Content.Tests.Examples;

/// <summary>How an author's example is read and told, over the small edition.</summary>
public sealed class ExampleFileTests
{
    const string Good = """
        ---
        examples: nip
        ---
        # Nips

        ## An ear that oozes

        She was nipped two days ago, or three. Expected by: common practice.

        closed: yes

        | fact | answer |
        |---|---|
        | about whom | me |
        | age | 30 |
        | where now | near |
        | ears affected | both |
        | bleeding | oozing |
        | hours since the nip | [40..72] |
        | jelly allergy | unsure |

        | must | value |
        |---|---|
        | level | within a day |
        | decided by | N3.1 |
        | warning | watch the swelling |
        | advice not shown | cover it |
        | clinic may treat | yes |
        """;

    [Fact]
    public void An_answer_is_a_value_a_range_or_unsure_and_counts_for_each_ear_that_is_affected()
    {
        var checkedExamples = Check(Good);

        Assert.Empty(checkedExamples.Problems);
        var run = Assert.Single(checkedExamples.Runs);
        Assert.Equal(ValueSet.Between(40, 72), run.Example.Answers.Single(a => a.Fact.Id == "nipped on").MayBe);
        Assert.Equal(2, run.Example.Answers.Single(a => a.Fact.Id == "jelly allergy").MayBe.Count);
        Assert.Equal(2, run.Result.Rules.Count(r => r.Decides));
    }

    [Theory]
    [InlineData("| level | within a day |", "| level | now |", "EH0505", "the level must be \"now\", and it comes out as \"within a day\" by \"N3.1\"")]
    [InlineData("| decided by | N3.1 |", "| decided by | N3.2 |", "EH0505", "the row \"N3.2\" must give the level")]
    [InlineData("| advice not shown | cover it |", "| advice shown | cover it |", "EH0505", "the advice \"cover it\" must be shown, and shown are none")]
    [InlineData("| clinic may treat | yes |", "| clinic may treat | not until a parent agrees |", "EH0505", "and it is \"yes\"")]
    [InlineData("| advice not shown | cover it |", "| shut by | cover it: jelly allergy |", "EH0505", "the answer to \"jelly allergy\" must shut the advice \"cover it\", and no \"never if\" of the item says so")]
    [InlineData("| advice not shown | cover it |", "| shut by | cover it: age |", "EH0505", "the answer to \"age\" must shut")]
    [InlineData("| advice not shown | cover it |", "| shut by | cover it |", "EH0008", "does not say which fact")]
    [InlineData("| advice not shown | cover it |", "| shut by | cover them: jelly allergy |", "EH0103", "\"cover them\"")]
    [InlineData("closed: yes", "", "EH0505", "it may still be anything from \"now\" to \"within a day\", with \"faint\", \"pale\"")]
    [InlineData("| age | 30 |", "| age | thirty |", "EH0105", "thirty")]
    [InlineData("| age | 30 |", "| agee | 30 |", "EH0103", "\"agee\"")]
    [InlineData("| age | 30 |", "| age | - |", "EH0008", "age")]
    [InlineData("| hours since the nip | [40..72] |", "| nipped on | 2026-11-01 |", "EH0103", "is a date")]
    [InlineData("| jelly allergy | unsure |", "| shock sign | no |", "EH0103", "follows from other facts")]
    [InlineData("| jelly allergy | unsure |", "| age | 31 |", "EH0102", "answered twice")]
    [InlineData("| decided by | N3.1 |", "| decided by | N33 |", "EH0103", "\"N33\"")]
    [InlineData("| clinic may treat | yes |", "| clinic may treat | perhaps |", "EH0103", "\"perhaps\"")]
    [InlineData("| must | value |", "| must be | value |", "EH0304", "\"must be\"")]
    [InlineData("examples: nip", "examples: bite", "EH0005", "\"bite\"")]
    [InlineData("examples: nip", "title: Nips", "EH0004", "which dialog")]
    public void What_is_wrong_with_an_example_is_told_in_its_authors_words(string from, string to, string code, string told)
    {
        Assert.Contains(from, Good, StringComparison.Ordinal);

        var problems = Check(Good.Replace(from, to, StringComparison.Ordinal)).Problems;

        var problem = problems.First(p => p.Code == code && p.Fault.Contains(told, StringComparison.Ordinal));
        Assert.Equal("dialogs/examples/nips.md", problem.Spot.File);
        Assert.NotEmpty(problem.Mend);
        Assert.NotNull(ProblemPages.Find(code));
    }

    [Fact]
    public void A_never_if_is_held_also_where_the_level_hides_the_item_anyway()
    {
        var shut = Good.Replace("| jelly allergy | unsure |", "| jelly allergy | yes |", StringComparison.Ordinal)
            .Replace("| advice not shown | cover it |", "| shut by | cover it: jelly allergy |", StringComparison.Ordinal);

        Assert.Empty(Check(shut).Problems);
    }

    [Fact]
    public void No_damage_to_an_example_makes_the_reader_throw()
    {
        var chance = new Random(11);
        for (var i = 0; i < 300; i++)
        {
            var text = Good.ToCharArray();
            for (var hit = 0; hit < 6; hit++)
                text[chance.Next(text.Length)] = "|:-*{}[]()#\n, "[chance.Next(14)];

            var checkedExamples = Check(new string(text));

            Assert.All(checkedExamples.Problems, p => Assert.True(p.Spot is { Line: > 0, Column: > 0 }, p.ToString()));
        }
    }

    static ExamplesChecked Check(string text)
    {
        var compiled = SmallSources.Compile(SmallSources.All);
        return ExamplePatients.Check([SourceFile.Of("dialogs/examples/nips.md", text)], compiled.Edition!, compiled.Assessor!);
    }
}
