using EarHelp.Proof.Findings;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Assessments;
using EarHelp.Triage.Editions;

namespace EarHelp.Proof.Tests.Properties;

public sealed class MonotoneTests
{
    [Fact]
    public void A_row_that_names_only_the_milder_sign_is_found()
    {
        var broken = SmallEdition.Changed((SmallEdition.Rules, "| N2 | - | pumping |", "| N2 | - | oozing |"));

        Assert.Equal("bleeding: oozing, everything else no | 571603032 | rules.md:11, rules.md:15, facts.md:16", Found(broken).InBrief());
    }

    [Fact]
    public void A_row_that_leaves_out_the_worst_value_is_found()
    {
        var broken = SmallEdition.Changed((SmallEdition.Rules, "| N3.2 | - | - | - | large |", "| N3.2 | - | - | - | slight |"));

        var found = Found(broken);

        Assert.Equal(("swelling", "slight", "large"), (found.Fact, found.From, found.To));
        Assert.Equal("bleeding: oozing, hours since the nip: 24 hours, swelling: slight, everything else no | 6606600 | rules.md:13, rules.md:15, facts.md:18", found.InBrief());
    }

    [Fact]
    public void A_worse_answer_that_hides_a_sign_because_it_no_longer_applies_is_found()
    {
        var broken = SmallEdition.Changed(
            (SmallEdition.Rules, "| N3.2 | - | - | - | large |", "| N3.2 | - | - | - | slight, large |"),
            (SmallEdition.Facts, "large | story | large | none | yes | - |", "large | story | large | none | yes | bleeding: none |"));

        Assert.Equal("swelling: slight, everything else no | 264264 | rules.md:13, rules.md:15, facts.md:16", Found(broken).InBrief());
    }

    [Fact]
    public void A_fact_without_a_direction_may_lower_the_level_and_is_listed_for_signing()
    {
        var report = EditionProof.Of(SmallEdition.Whole);

        Assert.Equal(["about whom", "age", "where now", "ears affected", "hours since the nip"], report.MayLower.ToArray());
    }

    /// <summary>The finding, after both halves of its example were assessed and gave the levels it tells.</summary>
    static LessUrgentThoughWorse Found(Edition broken)
    {
        var found = Assert.IsType<LessUrgentThoughWorse>(broken.OnlyError(PropertyNames.Monotone));
        var assessor = Assessor.Build(broken.Dialog);

        Assert.Equal(found.LevelBefore, LevelOf(found.Shown!.Answers));
        Assert.Equal(found.LevelAfter, LevelOf(found.After.Answers));
        return found;

        string LevelOf(System.Collections.Immutable.ImmutableArray<Answer> answers) => broken.Dialog.Levels[assessor.Assess([new EarAnswers(Ear.Left, answers)]).Level!.Value].Id;
    }
}
