using EarHelp.Understanding.Messages;

namespace EarHelp.Understanding.Tests;

/// <summary>The same thing is heard however somebody types it.</summary>
public class WrittenFormsTests
{
    [Theory]
    [InlineData("my ear is soooo sooore", "pain")]
    [InlineData("MY EAR IS BLEEEEDING", "bleeding")]
    [InlineData("MY LEFT EAR HURTS AND IS LEAKING", "discharge")]
    [InlineData("my e\u200bar hu\u200brts", "pain")]
    [InlineData("my ear is it\u00adchy", "itch")]
    [InlineData("ｍｙ ｅａｒ ｈｕｒｔｓ", "pain")]
    [InlineData("my ear hurts😭its leaking", "discharge")]
    [InlineData("cannae hear a thing", "hearing")]
    [InlineData("I can not hear anything", "hearing")]
    [InlineData("I CAN’T HEAR ANYTHING", "hearing")]
    [InlineData("ear is achin", "pain")]
    [InlineData("its dull and it hurts and its leaking a bit and i feel dizzy", "spinning")]
    public void A_thing_is_heard_in_every_form(string text, string fact) => Assert.Equal(Standing.Affirmed, StandingOf(text, fact));

    [Theory]
    [InlineData("it isnt sore it just feels full", "pain")]
    [InlineData("NOT SORE AT ALL", "pain")]
    [InlineData("it is nooot sore", "pain")]
    [InlineData("its no\u200bt sore", "pain")]
    [InlineData("isnae sore", "pain")]
    public void A_denial_is_heard_in_every_form(string text, string fact) => Assert.Equal(Standing.Denied, StandingOf(text, fact));

    [Theory]
    [InlineData("my 👂 🩸", "bleeding")]
    [InlineData("🤮 all night and my head is splitting", "vomiting with headache")]
    [InlineData("can i have drops with a 🥜 problem", "nut allergy")]
    [InlineData("lost a 🔋", "battery in the ear")]
    [InlineData("i wear a 🦻🏽", "hearing aid user")]
    public void A_picture_that_means_something_names_it(string text, string fact) => Assert.NotNull(StandingOf(text, fact));

    [Theory]
    [InlineData("it isnt sore it just feels full", "blocked")]
    [InlineData("no pain i am dizzy", "spinning")]
    public void A_denial_ends_where_a_clause_begins_without_a_comma(string text, string fact) => Assert.Equal(Standing.Affirmed, StandingOf(text, fact));

    [Fact]
    public void A_picture_ends_a_denial_so_that_what_follows_counts_as_said() =>
        Assert.Equal(Standing.Affirmed, StandingOf("no pain 🙂 discharge", "discharge"));

    /// <summary>Everyday words that stand one letter away from a word of danger.</summary>
    [Theory]
    [InlineData("my older sister was delicious company, the agent reported it")]
    [InlineData("a streaming service, a hostel, a planner and a scraped knee")]
    public void Everyday_words_are_no_slips_of_others(string text) => Assert.Empty(Some.Hear(text).Facts);

    static Standing? StandingOf(string text, string fact) =>
        Some.Hear(text).Facts.Where(f => f.Fact == Some.Fact(fact)).Select(f => (Standing?)f.Standing).Order().FirstOrDefault();
}
