using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Tests.Editions;

/// <summary>What the compiler makes of the small edition.</summary>
public sealed class SmallEditionTests
{
    static readonly Edition Edition = SmallSources.Compile(SmallSources.All).Edition!;

    [Fact]
    public void Facts_stand_in_the_order_of_asking()
    {
        var order = "about whom, age, where now, ears affected, faint, pale, bleeding, nipped on, swelling, heat, jelly allergy";

        Assert.Equal(order, string.Join(", ", Edition.Dialog.Facts.Select(f => f.Id)));
        Assert.All(Edition.Dialog.Facts, f => Assert.Equal(f, Edition.Dialog.Facts[f.Index]));
    }

    [Fact]
    public void Screens_stand_where_their_first_fact_stands()
    {
        Assert.Equal(
            "about whom, age, where now, ears affected, danger signs, bleeding, nipped on, swelling, heat, jelly allergy",
            string.Join(", ", Edition.Dialog.Screens.Select(s => s.Id)));
        Assert.True(Edition.Dialog.Screens[4].IsChecklist);
    }

    [Fact]
    public void A_date_decides_by_the_number_counted_from_it()
    {
        var nipped = Edition.Dialog.FindFact("hours since the nip")!;

        Assert.Equal("nipped on", nipped.Id);
        Assert.Equal(CountUnit.Hours, nipped.Counted!.Unit);
        Assert.Equal("{1..2}", Assert.Single(nipped.AppliesWhen).Values.ToString());
        Assert.Equal(721, nipped.Values.Count);
    }

    [Fact]
    public void A_rule_holds_exact_sets_and_its_place()
    {
        var rule = Edition.Dialog.Rules.Single(r => r.Id == "N3.1");

        Assert.Equal("N3", rule.Owner);
        Assert.Equal("{1} {25..720}", string.Join(' ', rule.Conditions.Select(c => c.Values)));
        Assert.Equal("this clinic, hospital", string.Join(", ", rule.Where.Select(w => Edition.Dialog.Destinations[w].Id)));
        Assert.Equal("watch the swelling", Assert.Single(rule.Warn));
        Assert.Equal(new SourceSpot("dialogs/nip/rules.md", 12, 3), rule.Spot);
    }

    [Fact]
    public void A_named_fact_of_all_rows_is_one_row_and_of_any_row_several()
    {
        var quiet = Edition.Dialog.NamedFacts.Single(f => f.Id == "quiet ear");
        var shock = Edition.Dialog.NamedFacts.Single(f => f.Id == "shock sign");

        Assert.Equal(3, Assert.Single(quiet.Rows).Conditions.Length);
        Assert.Equal(2, shock.Rows.Length);
        Assert.Equal(quiet.Values.IndexOf("no"), quiet.Otherwise);
    }

    [Fact]
    public void A_hold_is_what_stands_after_not_until()
    {
        Assert.Equal("a parent agrees", Edition.Dialog.TreatRules[1].Hold);
        Assert.Null(Edition.Dialog.TreatRules[^1].Hold);
    }

    [Fact]
    public void Words_become_pieces_without_any_markup()
    {
        var words = Edition.Wordings["en"];

        Assert.Equal(new Inline.Either("your", "their", false), First(words.Pages["greeting"])[1]);
        Assert.Contains(new Inline.Link("Read more", "https://example.org/more"), First(words.Pages["greeting"]));
        Assert.Contains(new Inline.Blank("emergency number", false), First(words.Signposts[0].Text));
        Assert.Equal(new Inline.Either("Your", "Their", false), First(words.Reasons["N2"])[0]);
        var items = Assert.IsType<Block.Items>(words.Advice["cover it"].Blocks[1]);
        Assert.Contains(new Inline.Run("every day", true, false), items.Entries[1]);
    }

    [Fact]
    public void Options_stand_for_the_values_in_their_range()
    {
        var options = Edition.Wordings["en"].Questions["nipped on"].Options;

        Assert.Equal("{0..6} {7..24}", string.Join(' ', options.Select(o => o.Values)));
        Assert.Equal("a few drops", Assert.Single(Edition.Wordings["en"].Questions["bleeding"].Options[1].SaidAs));
    }

    static System.Collections.Immutable.ImmutableArray<Inline> First(Prose prose) => Assert.IsType<Block.Paragraph>(prose.Blocks[0]).Inlines;
}
