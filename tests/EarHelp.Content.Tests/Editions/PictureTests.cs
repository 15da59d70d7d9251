using EarHelp.Content.Sources;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Tests.Editions;

public sealed class PictureTests
{
    const string File = "content/en/answers/swelling.md", Whole = "That is the body at work.";

    [Fact]
    public void A_drawing_carries_the_words_that_say_the_same()
    {
        var compiled = SmallSources.Compile(SmallSources.Changed(File, Whole, "\n\n![An ear cut open.](picture:plug-in-water)\n\nIt heals."));

        var picture = Assert.IsType<Block.Picture>(compiled.Edition!.Wordings["en"].Answers["does a nip swell"].Text.Blocks[1]);
        Assert.Equal("plug in water", picture.Name);
        Assert.Equal("An ear cut open.", Assert.IsType<Inline.Run>(Assert.Single(picture.Words)).Text);
    }

    [Theory]
    [InlineData("\n\n![An ear.](picture:nose)\n\nIt heals.", "EH0103")]
    [InlineData("\n\n![](picture:ear)\n\nIt heals.", "EH0015")]
    [InlineData("\n\n![An ear.](https://example.org/ear.png)\n\nIt heals.", "EH0015")]
    [InlineData("It heals ![An ear.](picture:ear) soon.", "EH0015")]
    public void Another_picture_or_one_without_words_is_a_fault(string text, string code) =>
        Assert.Equal([code], SmallSources.Compile(SmallSources.Changed(File, Whole, text)).Problems.Select(p => p.Code));

    [Fact]
    public void Every_drawing_is_shown_by_a_text_of_the_shipped_edition()
    {
        var edition = EditionCompiler.Compile(SourceFolder.Read(SourceFolder.FindRoot(AppContext.BaseDirectory)!), CompileOptions.Plain).Edition!;
        var wording = edition.Wordings["en"];

        var shown = wording.Explanations.Values.Concat(wording.Answers.Values.Select(a => a.Text)).SelectMany(p => p.Blocks).OfType<Block.Picture>().Select(p => p.Name).ToHashSet();

        Assert.Empty(Pictures.All.Where(p => !shown.Contains(p)));
    }
}
