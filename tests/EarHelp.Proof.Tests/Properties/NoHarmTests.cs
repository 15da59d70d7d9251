using EarHelp.Proof.Findings;

namespace EarHelp.Proof.Tests.Properties;

public sealed class NoHarmTests
{
    const string Scab = "| leave the scab | leave alone | ear | swelling: slight, large | - |";

    [Fact]
    public void An_item_that_an_unsure_answer_may_forbid_is_found()
    {
        var broken = SmallEdition.Changed((SmallEdition.Advice, Scab, "| leave the scab | leave alone | ear | swelling: slight, large | jelly allergy: yes |"));

        Assert.Equal("swelling: slight, jelly allergy: not sure, everything else no | 1524803280 | advice.md:9, advice.md:9", broken.OnlyError(PropertyNames.NoHarm).InBrief());
    }

    [Fact]
    public void An_item_that_a_row_withholds_from_some_of_an_unsure_persons_answers_is_found()
    {
        var broken = SmallEdition.Changed((SmallEdition.Rules, "- | cover it | it may", "- | cover it, leave the scab | it may"));

        Assert.Equal("bleeding: oozing, swelling: not sure, everything else no | 1524274752 | advice.md:9, rules.md:13", broken.OnlyError(PropertyNames.NoHarm).InBrief());
    }

    [Fact]
    public void An_item_to_protect_that_a_named_fact_may_forbid_is_found()
    {
        var broken = SmallEdition.Changed((SmallEdition.Advice, Scab, "| leave the scab | protect | ear | swelling: slight, large | quiet ear: yes |"));

        Assert.Equal("swelling: not sure, everything else no | 528528 | advice.md:9, advice.md:9", broken.OnlyError(PropertyNames.NoHarm).InBrief());
    }
}
