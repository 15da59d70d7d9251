using System.Text.RegularExpressions;
using EarHelp.Content.Sources;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Tests.Answers;

/// <summary>The answers that are shipped: what people ask leads to a page, and every page keeps the rules of its kind.</summary>
public sealed partial class ShippedAnswersTests
{
    static readonly Edition Edition = EditionCompiler.Compile(SourceFolder.Read(SourceFolder.FindRoot(AppContext.BaseDirectory)!), CompileOptions.Plain).Edition!;

    static Wording Wording => Edition.Wordings["en"];

    [Theory]
    [InlineData("the drops made it worse", "drops made it worse")]
    [InlineData("which drops should i use", "which drops are best")]
    [InlineData("how many days of olive oil", "how many days of drops")]
    [InlineData("olive oil or bicarbonate", "oil or water based drops")]
    [InlineData("hydrogen peroxide in ear", "oil or water based drops")]
    [InlineData("can i use oil with a perforated eardrum", "oil with a hole in the eardrum")]
    [InlineData("i have a nut allergy", "nut allergy and drops")]
    [InlineData("i am pregnant can i use ear drops", "drops in pregnancy")]
    [InlineData("do ear candles work", "ear candles")]
    [InlineData("can i use cotton buds", "cotton buds")]
    [InlineData("why does wax go deeper", "cotton buds")]
    [InlineData("can i use an ear camera", "camera scoops and home kits")]
    [InlineData("can i shower with a blocked ear", "showering with a blocked ear")]
    [InlineData("can i swim with ear wax", "swimming with wax")]
    [InlineData("can i dive with a blocked ear", "diving with a blocked ear")]
    [InlineData("can i fly with a blocked ear", "flying with a blocked ear")]
    [InlineData("do earphones cause wax", "earphones with a blocked ear")]
    [InlineData("hearing aid and ear wax", "hearing aids and wax")]
    [InlineData("can ear wax cause tinnitus", "wax and ear noise")]
    [InlineData("dizzy in the chair", "dizziness in the chair")]
    [InlineData("can i drive after microsuction", "driving after the visit")]
    [InlineData("is microsuction loud", "noise of suction")]
    [InlineData("does microsuction hurt", "does suction hurt")]
    [InlineData("suction or water", "suction or water")]
    [InlineData("i take blood thinners", "blood thinners and cleaning")]
    [InlineData("i am diabetic", "diabetes and cleaning")]
    [InlineData("eczema in my ear", "eczema in the ear")]
    [InlineData("narrow ear canals", "narrow ear tubes")]
    [InlineData("my child has ear wax", "children and wax")]
    [InlineData("what colour should ear wax be", "wax colour and smell")]
    [InlineData("my ear wax smells", "wax colour and smell")]
    [InlineData("how often should i have my ears cleaned", "how often to have wax removed")]
    [InlineData("prevent ear wax", "preventing wax")]
    [InlineData("why me", "why me")]
    [InlineData("only one ear is blocked", "one ear only")]
    [InlineData("they left wax in my ear", "wax left in")]
    [InlineData("still blocked after microsuction", "still blocked after the visit")]
    [InlineData("hearing worse after ear cleaning", "hearing worse after the visit")]
    [InlineData("ear bleeding after cleaning", "bleeding after the visit")]
    [InlineData("my ear itches", "itching ear")]
    [InlineData("my ear is sore after microsuction", "sore after the visit")]
    [InlineData("how much does it cost", "how long and how much")]
    [InlineData("what do i bring", "what to bring")]
    [InlineData("cancel my appointment", "cancel or move a visit")]
    [InlineData("i am abroad", "abroad now")]
    [InlineData("insect in my ear", "insect in the ear")]
    [InlineData("something is stuck in my ear", "something stuck in the ear")]
    [InlineData("pus coming out of my ear", "pus or fluid")]
    [InlineData("i have a fever and earache", "fever with an ear problem")]
    [InlineData("sudden hearing loss", "sudden deafness")]
    [InlineData("my face is drooping", "face droop")]
    public void What_people_ask_leads_to_its_answer(string asked, string answer) =>
        Assert.Contains(asked, Wording.Answers[answer].AskedAs.AsEnumerable());

    [Fact]
    public void There_are_at_least_sixty_answers() => Assert.InRange(Wording.Answers.Count, 60, int.MaxValue);

    [Fact]
    public void No_answer_is_shown_in_an_emergency()
    {
        var emergency = Edition.Dialog.NamedFacts.Single(f => f.Id == "emergency sign").Index;

        Assert.All(Wording.Answers.Values, a => Assert.Contains(a.NeverIf, c => c.Of.IsNamedFact && c.Of.Index == emergency));
    }

    [Fact]
    public void Every_answer_needs_every_red_flag_of_the_safety_screens()
    {
        var redFlags = Edition.Dialog.Facts.Where(f => f.RedFlag is RedFlag.Marked && f.AskIn == AskIn.Safety).Select(f => f.Index).ToHashSet();

        Assert.All(Wording.Answers.Values, a => Assert.Superset(redFlags, a.Needs.ToHashSet()));
    }

    [Fact]
    public void Every_advice_item_is_part_of_an_answer()
    {
        var named = Wording.Answers.Values.SelectMany(a => a.Advice).ToHashSet();

        Assert.Empty(Edition.Dialog.Advice.Where(a => !named.Contains(a.Index)).Select(a => a.Id));
    }

    [Fact]
    public void Every_answer_is_said_in_short_sentences()
    {
        // At most twenty words a sentence: common practice for texts that are read aloud.
        var longOnes = Wording.Answers.Values.SelectMany(a => Sentences(a.Text).Concat(Sentences(a.Next)).Select(s => (a.Id, Sentence: s)))
            .Where(s => s.Sentence.Split(' ', StringSplitOptions.RemoveEmptyEntries).Length > 20);

        Assert.Empty(longOnes);
    }

    [Fact]
    public void Every_word_of_the_glossary_says_what_it_is()
    {
        Assert.NotEmpty(Wording.Glossary);
        Assert.All(Wording.Glossary, e => Assert.False(e.Meaning.IsEmpty));
    }

    static IEnumerable<string> Sentences(Prose prose) => prose.Blocks.OfType<Block.Paragraph>().SelectMany(p => SentenceEnd().Split(Line(p)));

    static string Line(Block.Paragraph paragraph) => string.Concat(paragraph.Inlines.Select(i => i switch
    {
        Inline.Run run => run.Text,
        Inline.Link link => link.Text,
        Inline.Either either => either.Self,
        Inline.Blank => "it",
        _ => "",
    }));

    [GeneratedRegex(@"(?<=[.!?]""?)\s+")]
    private static partial Regex SentenceEnd();
}
