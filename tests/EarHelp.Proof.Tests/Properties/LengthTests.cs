using EarHelp.Proof.Findings;

namespace EarHelp.Proof.Tests.Properties;

public sealed class LengthTests
{
    const string SevenIn = "content/en/reasons.md";

    [Fact]
    public void More_screens_than_the_dialog_allows_are_found()
    {
        var broken = SmallEdition.Changed((SmallEdition.Facts, "screens at most: 10", "screens at most: 3"));

        var found = Assert.IsType<TooManyScreens>(broken.OnlyError(PropertyNames.Length));

        Assert.Equal((6, 3), (found.Screens, found.Bound));
        Assert.Equal("Age 18, everything else no | 572052936 | facts.md:19", found.InBrief());
    }

    [Fact]
    public void A_bound_that_only_those_who_are_sure_keep_is_found()
    {
        var broken = SmallEdition.Changed(
            (SmallEdition.Facts, "screens at most: 10", "screens at most: 5"),
            (SmallEdition.Facts, "| none, slight, large | story | large | none | yes | - |", "| none, slight, large | story | large | none | yes | bleeding: none |"));

        var found = Assert.IsType<TooManyScreensIfUnsure>(broken.OnlyError(PropertyNames.Length));

        Assert.Equal((6, 5), (found.Screens, found.Bound));
        Assert.Contains("Whoever answers \"not sure\" may be asked up to 6 screens", found.Fault, StringComparison.Ordinal);
    }

    [Fact]
    public void A_fourth_screen_before_the_most_urgent_level_is_found()
    {
        var broken = SmallEdition.Changed(
            (SmallEdition.Rules, "| N8 |", "| N7 | - | - | - | slight, large | now | emergency service | - | - | because | [S1] | high |\n| N8 |"),
            (SevenIn, "| N8 |", "| N7 | Seven. |\n| N8 |"));

        var found = Assert.IsType<TooManyScreens>(broken.OnlyError(PropertyNames.Length));

        Assert.Equal((4, 3), (found.Screens, found.Bound));
        Assert.StartsWith("bleeding: oozing, swelling: slight, everything else no | ", found.InBrief(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_danger_that_is_asked_about_last_is_found()
    {
        var broken = SmallEdition.Changed(
            (SmallEdition.Rules, "| shock sign | bleeding | hours", "| shock sign | jelly allergy | hours"),
            (SmallEdition.Rules, "| N2 | - | pumping |", "| N2 | - | yes |"),
            (SmallEdition.Rules, "| N3.1 | - | oozing |", "| N3.1 | - | no |"),
            (SmallEdition.Rules, "| N8 | - | none |", "| N8 | - | no |"),
            (SmallEdition.Facts, "| before advice | yes | no | - |", "| before advice | yes | no | no, because it is told |"),
            (SevenIn, "{Your\\|Their} ear bleeds in pumps.", "There is an allergy."));

        var found = Assert.IsType<TooManyScreens>(broken.OnlyError(PropertyNames.Length));

        Assert.Contains("jelly allergy: yes", found.Shown!.InWords, StringComparison.Ordinal);
    }

    [Fact]
    public void The_way_over_a_fact_that_is_asked_gently_is_not_counted()
    {
        var broken = SmallEdition.Changed(
            (SmallEdition.Rules, "| N8 |", "| N7 | - | - | - | slight, large | now | emergency service | - | - | because | [S1] | high |\n| N8 |"),
            (SevenIn, "| N8 |", "| N7 | Seven. |\n| N8 |"),
            (SmallEdition.Facts, "screens at most: 10", "screens at most: 10\nasked gently: swelling"));

        Assert.DoesNotContain(EditionProof.Of(broken).Errors, f => f.Breaks == PropertyNames.Length);
    }
}
