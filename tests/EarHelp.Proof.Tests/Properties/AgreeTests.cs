using EarHelp.Proof.Findings;
using EarHelp.Triage.Editions;

namespace EarHelp.Proof.Tests.Properties;

public sealed class AgreeTests
{
    [Theory]
    [InlineData("N1", "Faint: yes, bleeding: oozing, swelling: large, everything else no | 1143206064 | rules.md:10, rules.md:13")]
    [InlineData("N2", "bleeding: pumping, swelling: large, everything else no | 762137376 | rules.md:11, rules.md:13")]
    [InlineData("N3.1", "bleeding: oozing, hours since the nip: 25 hours, swelling: large, everything else no | 735710976 | rules.md:12, rules.md:13")]
    public void A_row_that_gives_what_another_withholds_from_the_same_people_is_found(string giving, string brief)
    {
        var found = Giving(giving).OnlyError(PropertyNames.Agree);

        Assert.Equal(brief, found.InBrief());
    }

    [Fact]
    public void Rows_that_never_meet_may_say_opposite_things()
    {
        Assert.DoesNotContain(EditionProof.Of(Giving("N8")).Errors, f => f.Breaks == PropertyNames.Agree);
    }

    static Edition Giving(string rule) =>
        SmallEdition.Whole.With(d => d with { Rules = [.. d.Rules.Select(r => r.Id == rule ? r with { Give = [0] } : r)] });
}
