using EarHelp.Web.Security;

namespace EarHelp.Web.Tests.Security;

public sealed class ReceiptCodeTests
{
    static readonly string Secret = new('s', 43);

    [Fact]
    public void Has_more_than_128_bits_in_eight_groups_of_four()
    {
        var shown = ReceiptCode.InGroups(ReceiptCode.For(Secret, "c"));

        Assert.Matches("^[0-9A-HJKMNP-TV-Z]{4}( [0-9A-HJKMNP-TV-Z]{4}){7}$", shown);
        Assert.True(8 * 4 * 5 >= 128);
    }

    [Fact]
    public void Is_the_same_for_one_browser_and_conversation_and_no_other()
    {
        Assert.Equal(ReceiptCode.For(Secret, "c"), ReceiptCode.For(Secret, "c"));
        Assert.NotEqual(ReceiptCode.For(Secret, "c"), ReceiptCode.For(Secret, "d"));
        Assert.NotEqual(ReceiptCode.For(Secret, "c"), ReceiptCode.For(new string('t', 43), "c"));
    }

    [Fact]
    public void Uses_every_letter_about_equally_often()
    {
        var counts = Enumerable.Range(0, 400).SelectMany(i => ReceiptCode.For(Secret, $"conversation {i}")).CountBy(c => c).ToList();

        Assert.Equal(32, counts.Count);
        Assert.All(counts, c => Assert.InRange(c.Value, 300, 500));
    }

    [Fact]
    public void Is_read_in_small_letters_with_dashes_and_with_letters_that_look_alike()
    {
        const string code = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";

        Assert.Equal(code, ReceiptCode.Read("o123-4567 89ab–cdef ghjk mnpq rstv wxyz"));
        Assert.Equal(code, ReceiptCode.Read("0l23456789abcdefghjkmnpqrstvwxyz"));
        Assert.Equal(code, ReceiptCode.Read("  0i23 4567\t89AB CDEF GHJK MNPQ RSTV WXYZ "));
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("0123 4567 89AB CDEF GHJK MNPQ RSTV WXY")]
    [InlineData("0123 4567 89AB CDEF GHJK MNPQ RSTV WXYZ 0")]
    [InlineData("U123 4567 89AB CDEF GHJK MNPQ RSTV WXYZ")]
    [InlineData("0123 4567 89AB CDEF GHJK MNPQ RSTV WXY<")]
    public void Anything_else_is_no_code(string? typed)
    {
        Assert.Null(ReceiptCode.Read(typed));
    }
}
