namespace EarHelp.Content.Tests.Editions;

/// <summary>The small edition looks for the words "ibuprofen" and "drops", and for the verb "take" at the start of a sentence.</summary>
public sealed class AdviceWordsTests
{
    [Theory]
    [InlineData("Ibuprofen helps.", 1)]
    [InlineData("Some take it with IBUPROFEN.", 1)]
    [InlineData("Take a seat.", 1)]
    [InlineData("It swells. Take a seat.", 1)]
    [InlineData("It swells: take a seat.", 1)]
    [InlineData("**Take** a seat.", 1)]
    [InlineData("Some take a seat.", 0)]
    [InlineData("It may take a day.", 0)]
    [InlineData("Taken together it is harmless.", 0)]
    [InlineData("The ibuprofens are many.", 0)]
    [InlineData("A drop is no harm.", 0)]
    [InlineData("Ear drops, 5drops or drops.", 1)]
    public void Whole_words_anywhere_and_verbs_at_the_start_of_a_sentence(string sentence, int faults)
    {
        var compiled = SmallSources.Compile(SmallSources.Changed("content/en/warnings.md", "More swelling needs a look on the same day.", sentence));

        Assert.Equal(faults, compiled.Problems.Count(p => p.Code == "EH0311"));
        Assert.Equal(faults, compiled.Problems.Length);
    }

    [Fact]
    public void A_word_may_be_left_to_explanations()
    {
        var compiled = SmallSources.Compile(SmallSources.Changed("content/en/explanations.md", "The skin of the ear is thin.", "Some drops make it swell."));

        Assert.Empty(compiled.Problems);
    }

    [Fact]
    public void Advice_items_themselves_may_say_it()
    {
        var compiled = SmallSources.Compile(SmallSources.Changed("content/en/advice.md", "- Use a little jelly.", "- Take ibuprofen."));

        Assert.Empty(compiled.Problems);
    }
}
