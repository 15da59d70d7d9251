using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Telling;

namespace EarHelp.Conversation.Tests.Telling;

/// <summary>What a patient with trouble in both ears reads: nothing twice.</summary>
public sealed class AdviceForBothEarsTests
{
    static readonly Dictionary<string, string?> BothSlowlyBlocked = new()
    {
        ["ears affected"] = "both",
        ["hearing"] = "reduced",
        ["hearing worsened over"] = "91..36500",
        ["hearing changed on"] = "91..36500",
        ["blocked"] = "yes",
    };

    [Fact]
    public void What_goes_for_both_ears_is_said_once()
    {
        var said = LeaveAlone(BothSlowlyBlocked);

        Assert.Single(Places(said, "No ear candles"));
        Assert.Single(Places(said, "For each ear"));
        Assert.DoesNotContain("left ear", said, StringComparison.Ordinal);
    }

    [Fact]
    public void What_goes_for_one_ear_names_it()
    {
        var said = LeaveAlone(new Dictionary<string, string?>(BothSlowlyBlocked) { ["ears affected"] = "left" });

        Assert.Single(Places(said, "No ear candles"));
        Assert.Contains("looked in your left ear", said, StringComparison.Ordinal);
        Assert.DoesNotContain("For each ear", said, StringComparison.Ordinal);
    }

    static IEnumerable<int> Places(string text, string part)
    {
        for (var at = text.IndexOf(part, StringComparison.Ordinal); at >= 0; at = text.IndexOf(part, at + 1, StringComparison.Ordinal))
            yield return at;
    }

    static string LeaveAlone(Dictionary<string, string?> answers)
    {
        var talk = new OneConversation().Begin().Form();
        talk.Answer(answers);
        var writer = OneConversation.Edition.WriterOf(talk.State!);
        var shown = writer.Write(talk.Replies.OfType<Reply.Outcome>().Single(), talk.Now).OfType<LetterPart.OutcomeShown>().Single();
        return PlainText.Of(shown.Sections.Single(s => s.Kind == OutcomeSectionKind.LeaveAlone).Text);
    }
}
