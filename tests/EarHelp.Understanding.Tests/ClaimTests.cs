using EarHelp.Understanding.Readings;

namespace EarHelp.Understanding.Tests;

public class ClaimTests
{
    [Fact]
    public void Every_emergency_phrase_of_the_edition_is_found_inside_a_sentence()
    {
        foreach (var signpost in Some.Wording.Signposts)
        {
            foreach (var said in signpost.SaidAs)
            {
                var reading = Some.Read($"Hello, since lunch {said} and I am worried");

                Assert.True(reading.Signposts.Any(s => Some.Wording.Signposts[s.Signpost].Id == signpost.Id), $"{signpost.Id}: {said}");
            }
        }
    }

    [Fact]
    public void A_claim_points_at_the_persons_own_words()
    {
        const string Text = "It’s my RIGHT   ear";

        var claim = Assert.Single(Some.Read(Text).Claims, c => c.Fact == Some.Fact("ears affected"));

        Assert.Contains("RIGHT", Text.Substring(claim.Span.Start, claim.Span.Length), StringComparison.Ordinal);
    }

    [Fact]
    public void Curly_quotes_and_case_make_no_difference() =>
        Assert.NotEmpty(Some.Read("CAN’T SPEAK").Signposts);

    [Fact]
    public void A_word_of_denial_just_before_is_noted() =>
        Assert.Equal(Certainty.Denied, Assert.Single(Some.Read("no slurred speech").Signposts).Certainty);

    [Fact]
    public void A_denial_does_not_reach_past_a_comma() =>
        Assert.Equal(Certainty.Said, Assert.Single(Some.Read("no, slurred speech").Signposts).Certainty);

    [Fact]
    public void A_phrase_inside_another_word_is_no_phrase() => Assert.Empty(Some.Read("strokes of the brush, deadline arms").Signposts);

    [Fact]
    public void A_mended_letter_is_noted() =>
        Assert.Equal(Certainty.Mended, Assert.Single(Some.Read("slured speech").Signposts).Certainty);

    [Theory]
    [InlineData("")]
    [InlineData("   ")]
    [InlineData("?!…")]
    [InlineData("🙂🙂")]
    public void Nothing_is_read_of_a_message_without_words(string text) => Assert.Empty(Some.Read(text).Claims);

    [Fact]
    public void A_very_long_message_is_read_to_its_end()
    {
        var text = string.Concat(Enumerable.Repeat("my ear my ear no no not sure ", 20_000)) + "slurred speech";

        Assert.Contains(Some.Read(text).Signposts, s => Some.Wording.Signposts[s.Signpost].Id == "speech trouble");
    }
}
