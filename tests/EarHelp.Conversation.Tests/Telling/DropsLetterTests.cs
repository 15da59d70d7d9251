using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Telling;

namespace EarHelp.Conversation.Tests.Telling;

/// <summary>The plan of the drops, as a patient with a slowly blocked ear reads it on Monday 30 November 2026.</summary>
public sealed class DropsLetterTests
{
    static readonly Dictionary<string, string?> SlowlyBlocked = new()
    {
        ["hearing"] = "reduced",
        ["hearing worsened over"] = "91..36500",
        ["hearing changed on"] = "91..36500",
        ["blocked"] = "yes",
    };

    [Fact]
    public void The_plan_names_its_days_and_ends_on_the_fifth()
    {
        var said = ToDo(SlowlyBlocked);

        Assert.Contains("Monday 30 November 2026: 2 to 3 drops in your left ear, 2 to 3 times in the day", said, StringComparison.Ordinal);
        Assert.Contains("Friday 4 December 2026: the same, if your left ear still feels blocked", said, StringComparison.Ordinal);
        Assert.DoesNotContain("Saturday 5 December 2026", said, StringComparison.Ordinal);
        Assert.Contains("on the evening before", said, StringComparison.Ordinal);
    }

    [Fact]
    public void The_amount_is_a_range_from_small_bottle_drops_to_large_dropper_drops()
    {
        var said = ToDo(SlowlyBlocked);

        // 2 x 2 x 3 drops at 26 in a millilitre, 3 x 3 x 5 drops at 20: arithmetic.
        Assert.Contains("That is 12 to 45 drops, about 0.4 to 2.3 mL.", said, StringComparison.Ordinal);
        Assert.Contains("A new bottle of 10 mL is enough.", said, StringComparison.Ordinal);
    }

    [Fact]
    public void Two_ears_follow_one_another()
    {
        var said = ToDo(new Dictionary<string, string?>(SlowlyBlocked) { ["ears affected"] = "both" });

        Assert.Contains("One ear at a time", said, StringComparison.Ordinal);
        Assert.Contains("Saturday 5 December 2026: 2 to 3 drops in your right ear", said, StringComparison.Ordinal);
        Assert.Contains("24 to 90 drops", said, StringComparison.Ordinal);
    }

    [Fact]
    public void No_plan_is_told_while_the_drops_are_shut()
    {
        var said = ToDo(new Dictionary<string, string?>(SlowlyBlocked) { ["hole ever"] = "yes" });

        Assert.DoesNotContain("mL", said, StringComparison.Ordinal);
        Assert.DoesNotContain("drops in", said, StringComparison.Ordinal);
    }

    static string ToDo(Dictionary<string, string?> answers)
    {
        var talk = new OneConversation().Begin().Form();
        talk.Answer(answers);
        var writer = OneConversation.Edition.WriterOf(talk.State!);
        var shown = writer.Write(talk.Replies.OfType<Reply.Outcome>().Single(), talk.Now).OfType<LetterPart.OutcomeShown>().Single();
        return PlainText.Of(shown.Sections.Single(s => s.Kind == OutcomeSectionKind.ToDo).Text);
    }
}
