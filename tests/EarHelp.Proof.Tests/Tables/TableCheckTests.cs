using EarHelp.Proof.Findings;
using EarHelp.Proof.Tests.Properties;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;
using EarHelp.Triage.Tables;

namespace EarHelp.Proof.Tests.Tables;

public sealed class TableCheckTests
{
    const string Reasons = "content/en/reasons.md";

    [Fact]
    public void A_named_fact_with_no_row_for_somebody_has_a_gap()
    {
        var broken = SmallEdition.Whole.With(d => d with { NamedFacts = d.NamedFacts.SetItem(0, d.NamedFacts[0] with { Otherwise = null }) });

        var found = broken.OnlyError(TableFindings.Gap);

        Assert.Equal("Everything no | 1143734592 | named.md:6", found.InBrief());
    }

    [Fact]
    public void Two_rows_for_the_same_people_break_a_unique_hit_policy()
    {
        var broken = SmallEdition.Whole.With(d => d with { NamedFacts = d.NamedFacts.SetItem(0, d.NamedFacts[0] with { Policy = HitPolicy.Unique }) });

        var found = broken.OnlyError(TableFindings.Overlap);

        Assert.StartsWith("Faint: yes, Pale: yes, everything else no | ", found.InBrief(), StringComparison.Ordinal);
    }

    [Fact]
    public void Two_rows_that_agree_break_no_any_hit_policy()
    {
        var fine = SmallEdition.Whole.With(d => d with { NamedFacts = d.NamedFacts.SetItem(0, d.NamedFacts[0] with { Policy = HitPolicy.Any }) });

        Assert.Empty(EditionProof.Of(fine).Errors);
    }

    [Fact]
    public void A_row_that_others_already_say_never_decides()
    {
        var broken = SmallEdition.Changed(
            (SmallEdition.Rules, "| N8 |", "| N7 | yes | - | - | large | within a day | this clinic, hospital | - | - | because | [S1] | high |\n| N8 |"),
            (Reasons, "| N8 |", "| N7 | Seven. |\n| N8 |"));

        var found = broken.OnlyError(TableFindings.NeverDecides);

        Assert.Equal("Faint: yes, bleeding: oozing, swelling: large, everything else no | 1143206064 | rules.md:14, rules.md:10, rules.md:12, rules.md:13", found.InBrief());
        Assert.Contains("also said by", found.Mend, StringComparison.Ordinal);
    }

    [Fact]
    public void A_column_that_everybody_meets_never_matters()
    {
        var broken = SmallEdition.Changed((SmallEdition.Treat, "| T3 | - | - | > 38.0 |", "| T3 | - | >= 0 | > 38.0 |"), (SmallEdition.Treat, "| T2 | - | < 18 |", "| T2 | - | >= 0 |"));

        var found = Assert.Single(EditionProof.Of(broken).Findings.OfType<ColumnNeverMatters>());

        Assert.Equal(("age", false), (found.Column, found.IsNotice));
    }

    [Fact]
    public void A_column_that_repeats_its_row_is_told_as_a_notice()
    {
        var repeated = SmallEdition.Changed((SmallEdition.Rules, "| N8 | - | none | - | none | look", "| N8 | no | none | - | none | look"), (SmallEdition.Rules, "| N1 | yes |", "| N1 | - |"), (SmallEdition.Rules, "| - | - | - | - | now |", "| - | pumping | - | - | now |"));

        Assert.DoesNotContain(EditionProof.Of(repeated).Errors, f => f is ColumnNeverMatters);
    }

    [Fact]
    public void A_cell_that_no_value_meets_is_outside()
    {
        var broken = SmallEdition.Whole.With(d => d with
        {
            Rules = d.Rules.SetItem(0, d.Rules[0] with { Conditions = [new Condition(new FactReference(false, 1), ValueSet.Empty, "> 130", d.Rules[0].Spot)] }),
        });

        Assert.Equal("No value of \"age\" meets > 130.", broken.OnlyError(TableFindings.Outside).Fault);
    }

    [Fact]
    public void Two_rows_that_differ_in_one_cell_could_be_merged()
    {
        var broken = SmallEdition.Changed(
            (SmallEdition.Rules, "| N8 |", "| N2.2 | - | oozing | - | - | now | emergency service, hospital | - | - | an artery | [S1] | high |\n| N8 |"));

        var found = Assert.IsType<CouldBeMerged>(broken.OnlyError(TableFindings.Merge));

        Assert.Equal(("N2", "N2.2", "bleeding"), (found.One, found.Other, found.Column));
    }
}
