using EarHelp.Conversation.States;
using EarHelp.Conversation.Stepping;
using EarHelp.Conversation.Turns;
using EarHelp.Triage.Answers;

namespace EarHelp.Cli.Talking;

/// <summary>What a terminal must know of words.</summary>
static class TalkGrammar
{
    const string AboutWhom = "about whom";
    const string Me = "me";

    /// <summary>True if the person writes about themselves, and until it is known.</summary>
    public static bool IsSelf(ServedEdition edition, ConversationState state) =>
        edition.Dialog.FindFact(AboutWhom) is not { } fact
        || !state.Answers.Any(a => a.Of.Fact == fact.Index && a.Said is Said.Values { Set.Only: { } only } && fact.Values.NameOf(only) != Me);

    /// <summary>A screen's name, with the ear behind it if it is about an ear.</summary>
    public static TurnContent.Change Change(string written)
    {
        var text = written.Trim();
        return text.EndsWith(" left", StringComparison.Ordinal) ? new TurnContent.Change(text[..^" left".Length], Ear.Left)
            : text.EndsWith(" right", StringComparison.Ordinal) ? new TurnContent.Change(text[..^" right".Length], Ear.Right)
            : new TurnContent.Change(text, null);
    }
}
