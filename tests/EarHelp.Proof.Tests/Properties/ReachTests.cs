using EarHelp.Proof.Findings;

namespace EarHelp.Proof.Tests.Properties;

public sealed class ReachTests
{
    [Fact]
    public void A_row_for_answers_that_cannot_stand_together_is_found()
    {
        var broken = SmallEdition.Changed(
            (SmallEdition.Rules, "| N8 |", "| N7 | - | none | - | large | within a day | this clinic, hospital | - | - | because | [S1] | high |\n| N8 |"),
            ("content/en/reasons.md", "| N8 |", "| N7 | Seven. |\n| N8 |"));

        Assert.Contains("the rule \"N7\"", broken.OnlyError(PropertyNames.Reach).Fault, StringComparison.Ordinal);
    }

    [Fact]
    public void An_item_that_is_always_forbidden_is_found_with_the_question_it_leaves_idle()
    {
        var broken = SmallEdition.Changed((SmallEdition.Advice, "jelly allergy: yes; swelling", "jelly allergy: yes; bleeding: oozing; swelling"));

        var found = EditionProof.Of(broken).Errors;

        Assert.Contains(found, f => f is NeverReached { Kind: "advice item", Name: "cover it" });
        Assert.Contains(found, f => f is NeverReached { Kind: "question", Name: "jelly allergy" });
    }

    [Fact]
    public void A_level_and_a_destination_that_nobody_gets_are_found()
    {
        var broken = SmallEdition.Changed((SmallEdition.Rules, "| none | look after it at home | home |", "| none | within three days | hospital |"));

        var found = EditionProof.Of(broken).Errors.OfType<NeverReached>();

        Assert.Equal([("level", "look after it at home"), ("destination", "home")], found.Select(f => (f.Kind, f.Name)));
    }
}
