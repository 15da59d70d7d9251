namespace EarHelp.Understanding.Tests;

public class PlainAnswerTests
{
    [Theory]
    [InlineData("right", "right")]
    [InlineData("RIGHT!", "right")]
    [InlineData("  right ", "right")]
    [InlineData("2", "right")]
    [InlineData("Not sure", "not sure")]
    [InlineData("right or left", null)]
    public void An_option_is_read_by_its_label_its_number_and_with_one_letter_wrong(string text, string? value) =>
        Assert.Equal(value, Some.Answer(text, "ears affected"));

    [Theory]
    [InlineData("abraod", "abroad")]
    [InlineData("abroat", "abroad")]
    [InlineData("abrxxd", null)]
    public void One_letter_wrong_is_mended(string text, string? value) => Assert.Equal(value, Some.Answer(text, "where now"));

    [Fact]
    public void A_word_that_has_a_neighbour_is_never_mended_to() =>
        Assert.Null(Some.Answer("rught", "ears affected")); // "right" and "tight" are both words of the edition

    [Theory]
    [InlineData("yes", "yes")]
    [InlineData("No.", "no")]
    [InlineData("no, but sometimes", null)]
    [InlineData("yes and no", null)]
    public void Yes_and_no_are_read_only_as_the_whole_message(string text, string? value) =>
        Assert.Equal(value, Some.Answer(text, "bleeding goes on"));

    [Theory]
    [InlineData("45", "45")]
    [InlineData("45 years", "45")]
    [InlineData("４５", "45")]
    [InlineData("45 days", null)]
    [InlineData("about 45", null)]
    public void A_number_is_read_with_its_own_unit_only(string text, string? value) => Assert.Equal(value, Some.Answer(text, "age"));

    [Theory]
    [InlineData("2026-11-20", "2026-11-20")]
    [InlineData("20/11", "2026-11-20")]
    [InlineData("20/11/2026", "2026-11-20")]
    [InlineData("20.11.26", "2026-11-20")]
    [InlineData("20 November", "2026-11-20")]
    [InlineData("November 20", "2026-11-20")]
    [InlineData("25 November", "2025-11-25")]
    [InlineData("4 days ago", "2026-11-20")]
    [InlineData("31 November", null)]
    [InlineData("29/2/2025", null)]
    [InlineData("20/13/2026", null)]
    public void A_date_is_read_in_the_ways_people_write_it(string text, string? value) =>
        Assert.Equal(value, Some.Answer(text, "hearing changed on"));

    [Fact]
    public void None_of_these_is_an_answer_to_a_checklist()
    {
        var answer = Some.Read("none of these", "face drooping", "chest pain");

        Assert.True(answer!.NoneOfThese);
    }

    [Fact]
    public void Nought_is_none_of_these_and_numbers_tick_entries()
    {
        Assert.True(Some.Read("0", "face drooping", "chest pain")!.NoneOfThese);

        var ticked = Some.Read("2", "face drooping", "chest pain")!.Choices;

        Assert.Equal((Some.Fact("chest pain"), "yes"), (ticked[0].Fact, ticked[0].Written));
    }

    [Fact]
    public void A_bare_no_does_not_answer_a_checklist_of_several() => Assert.Null(Some.Read("no", "face drooping", "chest pain"));

    [Fact]
    public void A_number_that_is_no_entry_ticks_nothing() => Assert.Null(Some.Read("7", "face drooping", "chest pain"));

    [Fact]
    public void A_sign_that_is_named_ticks_nothing_on_a_checklist() => Assert.Null(Some.Read("chest pain", "face drooping", "chest pain"));

    [Theory]
    [InlineData("yeah", "yes")]
    [InlineData("Yep!", "yes")]
    [InlineData("y", "yes")]
    [InlineData("nope", "no")]
    [InlineData("No, not at all", "no")]
    [InlineData("I don't know", "not sure")]
    [InlineData("no idea", "not sure")]
    [InlineData("not that I know of", "not sure")]
    [InlineData("I think so", "not sure")]
    [InlineData("yes but only a bit", null)]
    public void A_short_answer_is_read_in_the_ways_people_type_it(string text, string? value) =>
        Assert.Equal(value, Some.Answer(text, "bleeding goes on"));

    [Theory]
    [InlineData("none of them")]
    [InlineData("Nothing like that.")]
    [InlineData("no to all")]
    public void None_of_a_checklist_is_read_in_the_ways_people_type_it(string text) =>
        Assert.True(Some.Read(text, "face drooping", "chest pain")!.NoneOfThese);

    [Theory]
    [InlineData("earlier today", "2026-11-24")]
    [InlineData("yesterday evening", "2026-11-23")]
    public void Times_of_the_day_are_read_as_their_day(string text, string value) =>
        Assert.Equal(value, Some.Answer(text, "hearing changed on"));
}
