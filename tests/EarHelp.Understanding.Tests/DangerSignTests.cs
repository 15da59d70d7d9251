using EarHelp.Understanding.Messages;

namespace EarHelp.Understanding.Tests;

/// <summary>How danger signs are read in the words of the repository's edition: taken for denied only where they plainly are.</summary>
public class DangerSignTests
{
    [Fact]
    public void Every_emergency_phrase_of_the_edition_is_found_inside_a_sentence()
    {
        foreach (var signpost in Some.Wording.Signposts)
        {
            foreach (var said in signpost.SaidAs)
            {
                var heard = Some.Hear($"Hello, since lunch {said} and I am worried");

                Assert.True(heard.Signposts.Any(s => Some.Wording.Signposts[s.Signpost].Id == signpost.Id), $"{signpost.Id}: {said}");
            }
        }
    }

    /// <summary>What stands beside a question as another way to say its danger sign is heard in passing too.</summary>
    [Fact]
    public void Every_way_to_say_a_danger_sign_of_a_checklist_is_heard_inside_a_sentence()
    {
        var missed = new List<string>();
        foreach (var entry in Some.Wording.Questions.Values.SelectMany(q => q.Entries))
        {
            var fact = Some.Dialog.Facts[entry.Fact];
            if (fact.RedFlag is not Triage.Facts.RedFlag.Marked)
                continue;
            foreach (var words in entry.SaidAs)
            {
                var heard = Some.Hear($"since lunch i have {words}");
                var isHeard = heard.Facts.Any(f => f.Fact == entry.Fact)
                    || heard.Signposts.Any(s => Some.Wording.Signposts[s.Signpost].Claims.Any(c => !c.Of.IsNamedFact && c.Of.Index == entry.Fact));
                if (!isHeard)
                    missed.Add($"{fact.Id}: {words}");
            }
        }

        Assert.Empty(missed);
    }

    [Theory]
    [InlineData("I do not have chest pain")]
    [InlineData("I don’t have chest pain")]
    [InlineData("I dont have any chest pain")]
    [InlineData("he hasn't got chest pain")]
    [InlineData("no chest pain")]
    [InlineData("there is no sign of chest pain")]
    [InlineData("without chest pain")]
    [InlineData("I have not had any chest pain")]
    [InlineData("no slurred speech or chest pain")]
    [InlineData("My ear is dull. I do not have chest pain, and no fever.")]
    public void A_sign_that_is_plainly_denied_is_denied(string text) => Assert.All(Chest(text), s => Assert.Equal(Standing.Denied, s));

    [Theory]
    [InlineData("chest pain")]
    [InlineData("not only chest pain")]
    [InlineData("no hearing and chest pain")]
    [InlineData("no better, chest pain now")]
    [InlineData("no better chest pain now")]
    [InlineData("no idea why I have chest pain")]
    [InlineData("it came without warning chest pain and all")]
    [InlineData("I have never had chest pain like this before")]
    [InlineData("no chest pain until this morning")]
    [InlineData("I did not have chest pain before today")]
    [InlineData("I don't have slurred speech but chest pain")]
    [InlineData("no, chest pain")]
    [InlineData("I do not have a fever; chest pain")]
    [InlineData("I don't think it is chest pain")]
    [InlineData("no relief from chest pain")]
    public void Anything_less_plain_leaves_the_sign_said(string text) => Assert.Contains(Chest(text), s => s is Standing.Affirmed or Standing.Supposed);

    [Theory]
    [InlineData("I can't breathe")]
    [InlineData("I cannot breathe")]
    [InlineData("no wonder I can't breathe")]
    [InlineData("I have no sleep as I can't breathe")]
    public void A_denial_inside_a_phrase_is_the_phrase(string text) =>
        Assert.Contains(Some.Hear(text).Signposts, s => s.Standing == Standing.Affirmed);

    [Theory]
    [InlineData("I am drying my ear")]
    [InlineData("I never had it")]
    [InlineData("the strike of a clock")]
    [InlineData("strokes of the brush, deadline arms")]
    public void A_word_with_a_neighbour_is_never_guessed_to_be_a_danger_sign(string text) => Assert.Empty(Some.Hear(text).Signposts);

    [Theory]
    [InlineData("")]
    [InlineData("   ")]
    [InlineData("?!…")]
    [InlineData("🙂🙂")]
    public void Nothing_is_read_of_a_message_without_words(string text) => Assert.Empty(Some.Hear(text).Facts);

    [Theory]
    [InlineData("my mum had a stroke ten years ago", "stroke")]
    [InlineData("my dad had a heart attack years ago and my ear is blocked", "chest pain")]
    [InlineData("I passed out once as a child", "collapse or fit")]
    [InlineData("I had meningitis as a baby", "stiff neck")]
    [InlineData("my brother has fits, i only have a blocked ear", "collapse or fit")]
    public void What_is_over_or_of_somebody_else_is_not_read_as_here_and_now(string text, string signpost)
    {
        var said = Some.Hear(text);

        Assert.DoesNotContain(said.Signposts, s => Some.Wording.Signposts[s.Signpost].Id == signpost && s.Standing == Standing.Affirmed);
        Assert.DoesNotContain(said.Facts, f => f.Standing == Standing.Affirmed && Some.Dialog.Facts[f.Fact].Id == signpost);
    }

    static List<Standing> Chest(string text)
    {
        var said = Some.Hear(text);
        var found = said.Signposts.Where(s => Some.Wording.Signposts[s.Signpost].Id == "chest pain").Select(s => s.Standing)
            .Concat(said.Facts.Where(f => f.Fact == Some.Fact("chest pain")).Select(f => f.Standing)).ToList();
        Assert.NotEmpty(found);
        return found;
    }
}
