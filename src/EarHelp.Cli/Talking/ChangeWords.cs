using EarHelp.Conversation.Turns;
using EarHelp.Triage.Answers;

namespace EarHelp.Cli.Talking;

/// <summary>Reads which answer is to be changed.</summary>
static class ChangeWords
{
    /// <summary>A screen's name, with the ear behind it if it is about an ear.</summary>
    public static TurnContent.Change Read(string written)
    {
        var text = written.Trim();
        return text.EndsWith(" left", StringComparison.Ordinal) ? new TurnContent.Change(text[..^" left".Length], Ear.Left)
            : text.EndsWith(" right", StringComparison.Ordinal) ? new TurnContent.Change(text[..^" right".Length], Ear.Right)
            : new TurnContent.Change(text, null);
    }
}
