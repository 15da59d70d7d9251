using System.Text;
using EarHelp.Content.Sources;

namespace EarHelp.Content.Tests.Sources;

public sealed class SourceTests
{
    [Fact]
    public void The_hash_does_not_change_with_line_ends_a_byte_order_mark_or_the_order_of_files()
    {
        var damaged = SmallSources.All.Reverse().Select(f => new SourceFile(f.Path, Encoding.UTF8.GetBytes("\uFEFF" + Encoding.UTF8.GetString(f.Bytes.Span).ReplaceLineEndings("\r\n"))));

        Assert.Equal(EditionHash.Of(SmallSources.All), EditionHash.Of([.. damaged]));
    }

    [Fact]
    public void The_hash_changes_with_any_letter_and_any_path()
    {
        var hash = EditionHash.Of(SmallSources.All);
        var first = SmallSources.All[0];

        Assert.NotEqual(hash, EditionHash.Of(SmallSources.Changed("dialogs/levels.md", "PT24H", "PT23H")));
        Assert.NotEqual(hash, EditionHash.Of(SmallSources.All.SetItem(0, first with { Path = "content/other.md" })));
        Assert.NotEqual(EditionHash.Of([SourceFile.Of("a", "bc")]), EditionHash.Of([SourceFile.Of("ab", "c")]));
    }

    [Fact]
    public void A_pack_is_the_same_whatever_the_order_and_gives_back_every_byte()
    {
        var packed = SourcePack.Pack(SmallSources.All);

        Assert.Equal(packed, SourcePack.Pack([.. SmallSources.All.Reverse()]));
        var back = SourcePack.Unpack(packed);
        Assert.Equal(SmallSources.All.Select(f => f.Path), back.Select(f => f.Path));
        Assert.All(SmallSources.All.Zip(back), pair => Assert.True(pair.First.Bytes.Span.SequenceEqual(pair.Second.Bytes.Span)));
    }

    [Fact]
    public void A_pack_that_is_cut_off_is_refused()
    {
        var packed = SourcePack.Pack(SmallSources.All);
        var chance = new Random(3);

        for (var i = 0; i < 200; i++)
        {
            var cut = packed.AsSpan(0, chance.Next(packed.Length / 2)).ToArray();
            Assert.Throws<InvalidDataException>(() => SourcePack.Unpack(cut));
        }
    }

    [Theory]
    [InlineData("dialogs/ear/1-facts.md", true)]
    [InlineData("content/en/pages.md", true)]
    [InlineData("dialogs/README.md", false)]
    [InlineData("dialogs/CHANGES.md", false)]
    [InlineData("dialogs/to-sign.md", false)]
    [InlineData("dialogs/ear/left-out.md", false)]
    [InlineData("dialogs/examples/ear/a-day-in-the-water.md", false)]
    [InlineData("content/en/picture.png", false)]
    public void What_explains_or_records_is_not_compiled(string path, bool isCompiled) =>
        Assert.Equal(isCompiled, SourceFolder.IsCompiled(path));
}
