using EarHelp.Triage.Editions;
using EarHelp.Triage.Texts;
using NodaTime;

namespace EarHelp.Content.Tests.Answers;

public sealed class AnswerPageTests
{
    const string File = "content/en/answers/swelling.md";

    static readonly Edition Edition = SmallSources.Compile(SmallSources.All).Edition!;

    static AnswerPage Swelling => Edition.Wordings["en"].Answers["does a nip swell"];

    [Fact]
    public void An_answer_carries_its_question_in_several_wordings()
    {
        Assert.Equal("Does a nip swell?", Swelling.Title);
        Assert.Equal(["does a nip swell", "why is it thick", "my ear got fat"], Swelling.AskedAs.AsEnumerable());
        Assert.Equal(new SourceSpot(File, 13, 1), Swelling.Spot);
    }

    [Fact]
    public void What_to_do_is_a_reference_to_an_advice_item() =>
        Assert.Equal(["leave the scab"], Swelling.Advice.Select(a => Edition.Dialog.Advice[a].Id));

    [Fact]
    public void The_red_flags_come_first_then_the_page_s_own_facts_and_all_that_its_conditions_rest_on() =>
        Assert.Equal(["faint", "pale", "bleeding", "nipped on", "swelling"], Swelling.Needs.Select(f => Edition.Dialog.Facts[f].Id));

    [Fact]
    public void The_conditions_that_forbid_it_are_kept_as_written() =>
        Assert.Equal(["yes", "pumping"], Swelling.NeverIf.Select(c => c.Written));

    [Fact]
    public void A_page_stands_under_a_heading_of_the_page_of_groups()
    {
        Assert.Equal("Nips", Swelling.Group);
        Assert.Equal(["Nips"], Edition.Wordings["en"].AnswerGroups.AsEnumerable());
    }

    [Fact]
    public void A_heading_with_no_answer_below_it_is_told()
    {
        const string Groups = "content/en/answer-groups.md";

        var problem = Assert.Single(SmallSources.Compile(SmallSources.Changed(Groups, "| Nips |", "| Nips |\n| Bites |")).Problems);

        Assert.Equal(("EH0302", Groups), (problem.Code, problem.Spot.File));
    }

    [Fact]
    public void A_page_counts_as_reviewed_up_to_its_last_day()
    {
        var lastDay = new LocalDate(2027, 5, 1);

        Assert.False(Swelling.Review.IsPast(lastDay));
        Assert.True(Swelling.Review.IsPast(lastDay.PlusDays(1)));
    }

    [Fact]
    public void A_page_names_who_answers_for_it_for_whom_and_by_which_evidence()
    {
        Assert.Equal("clinical lead", Swelling.Review.Owner);
        Assert.Equal(new LocalDate(2026, 11, 1), Swelling.Review.ReviewedOn);
        Assert.Equal("anyone with a nipped ear", Swelling.Review.AppliesTo);
        Assert.Equal(["S1", "S2"], Swelling.Review.Sources.AsEnumerable());
    }

    [Theory]
    [InlineData("**Next:**", "**Then:**", "EH0303", "EH0304")]
    [InlineData("**Advice:** leave the scab", "**Advice:** leave the scabb", "EH0103")]
    [InlineData("**Needs first:** swelling", "**Needs first:** sweling", "EH0103")]
    [InlineData("bleeding: pumping", "bleeding: pumpin", "EH0105")]
    [InlineData("evidence: S1, S2", "evidence: S1, S9", "EH0103")]
    [InlineData("owner: clinical lead\n", "", "EH0004")]
    [InlineData("group: Nips\n", "", "EH0004")]
    [InlineData("group: Nips", "group: Nipz", "EH0103")]
    [InlineData("review by: 2027-05-01", "review by: next May", "EH0404")]
    [InlineData("That is the body at work.", "Take a rest.", "EH0311")]
    [InlineData("That is the body at work.", "Ibuprofen is for pain.", "EH0311")]
    [InlineData("That is the body at work.", "The number is {clinic phone}.", "EH0310")]
    public void A_fault_in_an_answer_is_told(string whole, string broken, params string[] codes)
    {
        var compiled = SmallSources.Compile(SmallSources.Changed(File, whole, broken));

        Assert.Null(compiled.Edition);
        Assert.Equal(codes, compiled.Problems.Select(p => p.Code).Order(StringComparer.Ordinal));
        Assert.All(compiled.Problems, p => Assert.Equal(File, p.Spot.File));
    }

    [Fact]
    public void A_name_that_the_page_asks_for_may_be_a_date_or_follow_from_others()
    {
        var compiled = SmallSources.Compile(SmallSources.Changed(File, "swelling, nipped on", "quiet ear, hours since the nip"));

        Assert.Equal(["faint", "pale", "bleeding", "nipped on", "swelling"], compiled.Edition!.Wordings["en"].Answers["does a nip swell"].Needs.Select(f => Edition.Dialog.Facts[f].Id));
    }

    [Fact]
    public void A_text_of_one_word_below_the_limit_is_read()
    {
        var text = string.Join(' ', Enumerable.Repeat("Skin.", 119));

        Assert.Empty(SmallSources.Compile(SmallSources.Changed(File, "A nip swells a little on the first day. That is the body at work.", text)).Problems);
        Assert.Equal(["EH0313"], SmallSources.Compile(SmallSources.Changed(File, "A nip swells a little on the first day. That is the body at work.", text + " Skin.")).Problems.Select(p => p.Code));
    }

    [Fact]
    public void The_glossary_gives_plain_words_first()
    {
        var entry = Edition.Wordings["en"].Glossary[0];

        Assert.Equal(["outer ear"], entry.PlainWords.AsEnumerable());
        Assert.Equal(["pinna", "auricle"], entry.Terms.AsEnumerable());
        Assert.Empty(Edition.Wordings["en"].Glossary[1].Terms);
    }

    [Theory]
    [InlineData("The pinna swells.", 1)]
    [InlineData("Both PINNAS swell.", 1)]
    [InlineData("The outer ear (pinna) swells.", 0)]
    [InlineData("Both outer ears are pinnas.", 0)]
    [InlineData("The pinnate leaf swells.", 0)]
    public void A_medical_word_needs_its_plain_words_on_the_page(string text, int faults)
    {
        var compiled = SmallSources.Compile(SmallSources.Changed(File, "That is the body at work.", text));

        Assert.Equal(faults, compiled.Problems.Count(p => p.Code == "EH0317"));
    }

    [Fact]
    public void A_word_stands_in_the_glossary_once()
    {
        var compiled = SmallSources.Compile(SmallSources.Changed("content/en/glossary.md", "| scab | - |", "| scab | pinna |"));

        Assert.Equal(["EH0102"], compiled.Problems.Select(p => p.Code));
    }
}
