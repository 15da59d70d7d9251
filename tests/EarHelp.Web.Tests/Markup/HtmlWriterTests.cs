using System.Buffers;
using System.Text;
using EarHelp.Web.Markup;

namespace EarHelp.Web.Tests.Markup;

public sealed class HtmlWriterTests
{
    [Theory]
    [InlineData("<script>alert(1)</script>", "&lt;script&gt;alert(1)&lt;/script&gt;")]
    [InlineData("\" onmouseover=\"alert(1)", "&quot; onmouseover=&quot;alert(1)")]
    [InlineData("' ` &", "&#39; &#96; &amp;")]
    [InlineData("Blåvinge é 耳 \U0001F442", "Blåvinge é 耳 \U0001F442")]
    public void Writes_text_so_that_it_stays_text(string text, string expected)
    {
        Assert.Equal(expected, Written(html => html.Text(text)));
    }

    [Theory]
    [InlineData("a\0b", "a\uFFFDb")]
    [InlineData("a\u001Bb", "a\uFFFDb")]
    public void Shows_what_is_no_letter_as_a_mark(string text, string expected)
    {
        Assert.Equal(expected, Written(html => html.Text(text)));
    }

    [Fact]
    public void Shows_half_a_letter_as_a_mark()
    {
        Assert.Equal("a\uFFFDb\uFFFD", Written(html => html.Text("a\uDC42b\uD83D")));
    }

    [Fact]
    public void Keeps_lines_and_tabs()
    {
        Assert.Equal("one\n\ttwo", Written(html => html.Text("one\n\ttwo")));
    }

    [Fact]
    public void Encodes_the_value_of_an_attribute()
    {
        Assert.Equal(" title=\"&quot;&gt;\"", Written(html => html.Attribute("title"u8, "\">")));
    }

    [Fact]
    public void Writes_no_attribute_without_a_value()
    {
        Assert.Equal(string.Empty, Written(html => html.Attribute("title"u8, null)));
    }

    static string Written(Action<HtmlWriter> write)
    {
        var output = new ArrayBufferWriter<byte>();
        write(new HtmlWriter(output));
        return Encoding.UTF8.GetString(output.WrittenSpan);
    }
}
