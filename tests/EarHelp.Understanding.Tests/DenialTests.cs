using EarHelp.Understanding.Readings;

namespace EarHelp.Understanding.Tests;

/// <summary>What counts as denied in the words of the repository's edition: only what is denied for certain.</summary>
public class DenialTests
{
    [Theory]
    [InlineData("I do not have chest pain")]
    [InlineData("I don’t have chest pain")]
    [InlineData("I dont have any chest pain")]
    [InlineData("he hasn't got chest pain")]
    [InlineData("no chest pain")]
    [InlineData("there is no sign of chest pain")]
    [InlineData("without chest pain")]
    [InlineData("I have not had any chest pain")]
    [InlineData("never had chest pain")]
    [InlineData("no slurred speech or chest pain")]
    [InlineData("My ear is dull. I do not have chest pain, and no fever.")]
    public void A_sign_that_is_plainly_denied_is_denied(string text) => Assert.All(Chest(text), c => Assert.Equal(Certainty.Denied, c));

    [Theory]
    [InlineData("chest pain")]
    [InlineData("not only chest pain")]
    [InlineData("no hearing and chest pain")]
    [InlineData("no better, chest pain now")]
    [InlineData("no better chest pain now")]
    [InlineData("no idea why I have chest pain")]
    [InlineData("it came without warning chest pain and all")]
    [InlineData("I have never had chest pain like this before")]
    [InlineData("no chest pain until this morning")]
    [InlineData("I did not have chest pain before today")]
    [InlineData("I don't have slurred speech but chest pain")]
    [InlineData("no, chest pain")]
    [InlineData("I do not have a fever; chest pain")]
    [InlineData("I don't think it is chest pain")]
    [InlineData("no relief from chest pain")]
    public void Anything_less_plain_leaves_the_sign_said(string text) => Assert.All(Chest(text), c => Assert.Equal(Certainty.Said, c));

    [Theory]
    [InlineData("I can't breathe")]
    [InlineData("I cannot breathe")]
    [InlineData("no wonder I can't breathe")]
    [InlineData("I have no sleep as I can't breathe")]
    public void A_denial_inside_a_phrase_is_the_phrase(string text) =>
        Assert.All(Some.Read(text).Signposts, s => Assert.Equal(Certainty.Said, s.Certainty));

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
        Assert.True(Some.Read(text, "face drooping", "chest pain").Plain!.NoneOfThese);

    [Theory]
    [InlineData("earlier today", "2026-11-24")]
    [InlineData("yesterday evening", "2026-11-23")]
    public void Times_of_the_day_are_read_as_their_day(string text, string value) =>
        Assert.Equal(value, Some.Answer(text, "hearing changed on"));

    [Theory]
    [InlineData("I am drying my ear")]
    [InlineData("I never had it")]
    [InlineData("the strike of a clock")]
    public void A_word_with_a_neighbour_is_never_guessed_to_be_a_danger_sign(string text)
    {
        var reading = Some.Read(text);

        Assert.Empty(reading.Signposts);
        Assert.DoesNotContain(reading.Claims, c => c.Certainty == Certainty.Mended);
    }

    [Fact]
    public void A_very_long_row_of_joined_denials_is_read_in_time_linear_in_its_length()
    {
        var text = "no " + string.Concat(Enumerable.Repeat("chest pain or ", 20_000)) + "chest pain";

        Assert.Equal(20_001, Some.Read(text).Signposts.Length);
    }

    static List<Certainty> Chest(string text)
    {
        var found = Some.Read(text).Signposts.Where(s => Some.Wording.Signposts[s.Signpost].Id == "chest pain").Select(s => s.Certainty).ToList();
        Assert.NotEmpty(found);
        return found;
    }
}
