using EarHelp.Understanding.Words;

namespace EarHelp.Understanding.Tests.Words;

public class WordListTests
{
    [Theory]
    [InlineData("My ear’s dull", "my ears dull")]
    [InlineData("38.5 °C on 12/8", "38.5 c on 12/8")]
    [InlineData("2026-08-12, 14:30", "2026-08-12 14:30")]
    [InlineData("ｅａｒ\u00a0１", "ear 1")]
    [InlineData("café nai\u0308ve", "cafe naive")]
    [InlineData("1,3", "1 3")]
    [InlineData("end.", "end")]
    public void Words_are_folded_for_comparing(string text, string words) =>
        Assert.Equal(words, string.Join(' ', WordList.Of(text).Select(w => w.Text)));

    [Fact]
    public void The_place_in_the_own_text_is_kept()
    {
        const string Text = "  “Dull”\u00a0ear ";

        Assert.Equal(["Dull", "ear"], WordList.Of(Text).Select(w => Text.Substring(w.Span.Start, w.Span.Length)));
    }

    [Fact]
    public void A_comma_begins_a_clause() => Assert.Equal([true, false, true], WordList.Of("no pain, deaf").Select(w => w.BeginsClause));
}
