using EarHelp.Proof.Comparing;
using EarHelp.Proof.Telling;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Rules;

namespace EarHelp.Proof.Tests.Comparing;

public sealed class EditionComparisonTests
{
    [Fact]
    public void An_edition_compared_with_itself_changes_nothing_for_anyone()
    {
        var comparison = EditionComparison.Of(SmallEdition.Whole, SmallEdition.Whole);

        Assert.True(comparison.ChangesNothing);
        Assert.Contains("no result and no text changes for anyone", ComparisonText.Write(comparison), StringComparison.Ordinal);
    }

    [Fact]
    public void A_cell_written_in_another_way_changes_nothing_for_anyone()
    {
        var respelled = SmallEdition.Changed((SmallEdition.Rules, "| pumping | - | - | now |", "| not(none, oozing) | - | - | now |"));

        var comparison = EditionComparison.Of(SmallEdition.Whole, respelled);

        Assert.NotEqual(comparison.Before, comparison.After);
        Assert.True(comparison.ChangesNothing);
    }

    [Fact]
    public void A_row_taken_a_level_down_is_a_decrease_with_its_exact_number_and_its_row()
    {
        var comparison = Compared((SmallEdition.Rules, "| - | - | - | large | within a day |", "| - | - | - | large | within three days |"));

        var decrease = Assert.Single(comparison.Decreases);
        Assert.Equal(("within a day -> within three days", 1), (decrease.Title, decrease.Steps));

        // 2 whom × 121 ages × 2 places × 3 ears, no sign of shock, oozing for at most 24 hours (25 values), large, 91 temperatures, 2 allergies.
        Assert.Equal(2 * 121 * 2 * 3 * 25 * 91 * 2, (int)decrease.Patients);
        Assert.Equal("bleeding: oozing, hours since the nip: 24 hours, swelling: large, everything else no", decrease.Shown.InWords);
        Assert.Equal("within a day, this clinic, hospital (N3.2)", decrease.ToldBefore);
        Assert.Equal("within three days, this clinic, hospital (N3.2)", decrease.ToldAfter);
        Assert.Equal(["rule \"N3.2\" changed (dialogs/nip/rules.md:13)"], decrease.Causes.Select(c => c.ToString()));
        Assert.Same(decrease, comparison.Changes[0]);
    }

    [Fact]
    public void A_decrease_keeps_its_id_until_the_group_is_another()
    {
        var one = Compared((SmallEdition.Rules, "| - | - | - | large | within a day |", "| - | - | - | large | within three days |"));
        var again = Compared((SmallEdition.Rules, "| - | - | - | large | within a day |", "| - | - | - | large | within three days |"), ("content/en/warnings.md", "More swelling", "Swelling"));
        var other = Compared((SmallEdition.Rules, "> 24 | - | within a day", "> 48 | - | within a day"));

        Assert.Equal(one.Decreases[0].Id, again.Decreases[0].Id);
        Assert.NotEqual(one.Decreases[0].Id, other.Decreases[0].Id);
    }

    [Fact]
    public void A_moved_bound_touches_exactly_the_values_between()
    {
        var comparison = Compared((SmallEdition.Rules, "> 24 | - | within a day", "> 48 | - | within a day"));

        // As above, with 24 values of the hours, and none or slight swelling.
        Assert.Equal(2 * 121 * 2 * 3 * 24 * 2 * 91 * 2, (int)comparison.Decreases.Single().Patients);
    }

    [Fact]
    public void Patients_newly_taken_to_be_impossible_come_first()
    {
        var comparison = Compared((SmallEdition.Advice, "| bleeding: none | swelling: large | a nip that swells has bled |", "| bleeding: none | swelling: large | a nip that swells has bled |\n| faint: yes | pale: yes | invented |"));

        var excluded = comparison.Changes[0];
        Assert.Equal((ChangeKind.NewlyImpossible, "now -> not possible"), (excluded.Kind, excluded.Title));
        Assert.Equal("impossible pair", Assert.Single(excluded.Causes).Kind);
    }

    [Fact]
    public void A_fact_that_only_one_edition_has_is_named_and_counts_as_irrelevant_to_the_other()
    {
        var comparison = Compared(
            (SmallEdition.Facts, "| jelly allergy | person | yes, no | before advice | yes | no | - | - |\n", ""),
            (SmallEdition.Advice, "jelly allergy: yes; swelling: large", "swelling: large"),
            ("content/en/questions-rest.md", "## jelly allergy\n\n**Ask:** Does petroleum jelly bring a rash?\n\n**Why:** We would not use it then.\n", ""));

        Assert.Equal(["jelly allergy"], comparison.OnlyBefore.ToArray());
        Assert.Empty(comparison.Decreases);
        Assert.Contains(comparison.Changes, c => c.Kind == ChangeKind.AdviceWidened && c.Before.StartsWith("cover it", StringComparison.Ordinal) && c.Shown.InWords.Contains("jelly allergy: yes", StringComparison.Ordinal));
        Assert.Contains(comparison.Changes, c => c.Kind == ChangeKind.QuestionLost && c.Before.StartsWith("jelly allergy", StringComparison.Ordinal));
    }

    [Fact]
    public void A_value_that_only_one_edition_has_is_not_possible_in_the_other()
    {
        var comparison = Compared((SmallEdition.Facts, "0 to 120 years", "0 to 110 years"));

        var excluded = comparison.Changes.Where(c => c.Kind == ChangeKind.NewlyImpossible).ToArray();
        Assert.NotEmpty(excluded);
        Assert.All(excluded, c => Assert.Matches("Age 1(11|12|13|14|15|16|17|18|19|20)", c.Shown.InWords));
    }

    [Fact]
    public void A_day_more_in_the_plan_after_a_visit_is_told_though_no_result_changes()
    {
        static Dialog Planned(Dialog dialog, int days) => dialog with { Aftercare = [new AftercareStep(0, 1, new Figures(0, days), [], [], [], dialog.Advice[1].Spot)] };

        var comparison = EditionComparison.Of(SmallEdition.Whole.With(d => Planned(d, 4)), SmallEdition.Whole.With(d => Planned(d, 5)));

        Assert.Equal(["aftercare row \"leave the scab\" changed (dialogs/nip/advice.md:9)"], comparison.Edits.Select(e => e.ToString()));
        Assert.Empty(comparison.Changes);
        Assert.False(comparison.ChangesNothing);
        Assert.True(EditionComparison.Of(SmallEdition.Whole.With(d => Planned(d, 4)), SmallEdition.Whole.With(d => Planned(d, 4))).ChangesNothing);
    }

    [Fact]
    public void A_changed_text_is_told_word_by_word()
    {
        var comparison = Compared(("content/en/advice.md", "a clean cloth", "a dry cloth"));

        Assert.Empty(comparison.Changes);
        Assert.Contains("Cover {the ear} with a [-clean-] {+dry+} cloth.", ComparisonText.Write(comparison), StringComparison.Ordinal);
    }

    [Fact]
    public void The_page_needs_nothing_besides_itself_and_pictures_the_flow()
    {
        var page = ComparisonHtml.Write(Compared((SmallEdition.Rules, "| - | - | - | large | within a day |", "| - | - | - | large | within three days |")));

        Assert.Contains("<svg", page, StringComparison.Ordinal);
        Assert.Contains("class=\"down\"", page, StringComparison.Ordinal);
        Assert.DoesNotMatch("(?:src|href)=", page);
    }

    [Fact]
    public void A_comparison_that_meets_its_bound_says_so_and_shows_nothing()
    {
        var comparison = EditionComparison.Of(SmallEdition.Whole, SmallEdition.Whole, nodeLimit: 10);

        Assert.False(comparison.ChangesNothing);
        Assert.Contains("10 diagram nodes", ComparisonText.Write(comparison), StringComparison.Ordinal);
    }

    static EditionComparison Compared(params (string Path, string From, string To)[] changes) => EditionComparison.Of(SmallEdition.Whole, SmallEdition.Changed(changes));
}
