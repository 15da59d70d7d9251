using EarHelp.Content.ReadingLevels;
using EarHelp.Content.Sources;

namespace EarHelp.Content.Tests.ReadingLevels;

public sealed class ReadingLevelTests
{
    const string File = "content/en/nips.md", Head = "---\nwords: pages\n---\n## nips\n\n";

    /// <summary>100 words, 10 sentences, 130 syllables: 0.39 x 10 + 11.8 x 1.3 - 15.59 and 206.835 - 10.15 - 109.98; arithmetic.</summary>
    [Fact]
    public void The_formulas_give_what_arithmetic_gives()
    {
        var counts = new TextCounts(10, 100, 430, 130, 5, 10);

        Assert.Equal(3.65, ReadingScores.FleschKincaidGrade(counts), 6);
        Assert.Equal(86.705, ReadingScores.FleschReadingEase(counts), 6);
        Assert.Equal(3.1291 + (1.043 * Math.Sqrt(15)), ReadingScores.Smog(counts), 6);
    }

    [Fact]
    public void Paragraphs_and_list_entries_end_a_sentence_and_a_colon_ends_what_is_read_at_once()
    {
        var counts = TextCounts.Of(["Signs are: pain; fever. Call us!", "one more"]);

        Assert.Equal(3, counts.Sentences);
        Assert.Equal(8, counts.Words);
        Assert.Equal(2, counts.LongestSentence);
    }

    [Theory]
    [InlineData(20, true)]
    [InlineData(21, false)]
    public void A_sentence_has_at_most_twenty_words(int words, bool isFine) =>
        Assert.Equal(isFine, Codes(Sentence(words)).Length == 0);

    [Theory]
    [InlineData(25, true)]
    [InlineData(26, false)]
    public void A_waiver_allows_at_most_twenty_five(int words, bool isFine) =>
        Assert.Equal(isFine, Codes(Sentence(words), Waiver("page: nips")).Length == 0);

    [Fact]
    public void A_waiver_of_a_text_that_is_not_there_is_a_fault() => Assert.Equal(["EH0103"], Codes(Sentence(5), Waiver("page: bites")));

    [Fact]
    public void A_short_text_may_hold_long_words() =>
        Assert.Empty(Codes("Professional examination, particularly considering immunological abnormality."));

    static string Sentence(int words) => string.Join(' ', Enumerable.Repeat("scab", words)) + ".";

    static string Waiver(string text) => $"---\nwords: reading waivers\n---\n| text | waived by | because | on |\n|---|---|---|---|\n| {text} | lead | a test | 2026-11-25 |\n";

    static string[] Codes(string text, string? waivers = null)
    {
        var sources = SmallSources.All.With(SourceFile.Of(File, Head + text + "\n"));
        if (waivers is not null)
            sources = sources.With(SourceFile.Of("content/en/waivers.md", waivers));
        return [.. SmallSources.Compile(sources).Problems.Select(p => p.Code)];
    }
}
