using EarHelp.Content.Sources;

namespace EarHelp.Content.Tests.Editions;

public sealed class FindingTests
{
    const string Head = "---\ndialog: nip\n---\n| finding | about | kind | for a time | days | for good | source |\n|---|---|---|---|---|---|---|\n";

    const string Plan = "\n\n| aftercare | days | only if | never if | source |\n|---|---|---|---|---|\n| leave the scab | 0 | - | - | [S1] |\n";

    [Theory]
    [InlineData("| seen | person | found | jelly allergy: yes | - | - | [S1] |", "Nothing says for how many days it counts.")]
    [InlineData("| seen | person | found | - | 3 | jelly allergy: yes | [S1] |", "There are days, and nothing that counts for a time.")]
    [InlineData("| seen | person | found | jelly allergy: yes | few | - | [S1] |", "\"few\" is no number of days.")]
    [InlineData("| seen | person | found | - | - | heat: 43.0 | [S1] |", "\"heat\" is not set to one value by its name.")]
    [InlineData("| seen | person | found | - | - | about whom: me, someone else | [S1] |", "\"about whom\" is not set to one value by its name.")]
    [InlineData("| seen | ear | found | - | - | swelling: slight | [S1] |", "\"slight\" is not the worse end of \"swelling\".")]
    [InlineData("| seen | ear | found | - | - | swelling: large | [S1] |", "\"swelling\" is among the answers that cannot stand together, so no finding may set it.")]
    [InlineData("| seen | person | found | - | - | jelly allergy: no | [S1] |", "\"no\" is the clear value of \"jelly allergy\": recording it could make an answer less urgent.")]
    [InlineData("| seen | person | looked | - | - | jelly allergy: yes | [S1] |", "looked")]
    public void A_finding_that_may_not_be_recorded_so_is_a_fault(string row, string fault)
    {
        var compiled = SmallSources.Compile(SmallSources.All
            .With(SourceFile.Of("dialogs/nip/visit.md", Head + row + Plan))
            .With(SourceFile.Of("content/en/findings.md", "---\nwords: findings\n---\n## seen\n\n**Form:** Seen\n\n**Told:** It was seen.\n")));

        Assert.Null(compiled.Edition);
        Assert.Contains(compiled.Problems, p => p.ToString().Contains(fault, StringComparison.Ordinal));
    }

    [Fact]
    public void A_finding_has_its_facts_and_its_words()
    {
        var compiled = SmallSources.Compile(SmallSources.All
            .With(SourceFile.Of("dialogs/nip/visit.md", Head + "| seen | ear | learnt | faint: yes | 3 | jelly allergy: yes | [S1] |" + Plan))
            .With(SourceFile.Of("content/en/findings.md", "---\nwords: findings\n---\n## seen\n\n**Form:** Seen in the ear\n\n**Told:** It was seen.\n")));

        Assert.Empty(compiled.Problems);
        var finding = Assert.Single(compiled.Edition!.Dialog.Findings);
        Assert.Equal([("faint", 3), ("jelly allergy", null)], finding.Sets.Select(s => (compiled.Edition.Dialog.Facts[s.Fact].Id, s.Days)));
        Assert.Equal("Seen in the ear", compiled.Edition.Wordings["en"].Findings["seen"].Form);
    }

    [Theory]
    [InlineData("**Form:** Seen\n")]
    [InlineData("**Told:** It was seen.\n")]
    public void Words_that_staff_tick_and_words_that_the_patient_reads_are_both_needed(string words)
    {
        var compiled = SmallSources.Compile(SmallSources.All
            .With(SourceFile.Of("dialogs/nip/visit.md", Head + "| seen | person | learnt | - | - | jelly allergy: yes | [S1] |" + Plan))
            .With(SourceFile.Of("content/en/findings.md", "---\nwords: findings\n---\n## seen\n\n" + words)));

        Assert.Contains(compiled.Problems, p => p.Code == "EH0303");
    }
}
