using System.Collections.Immutable;
using System.Text;
using EarHelp.Conversation.Records;
using EarHelp.Conversation.Taking;

namespace EarHelp.Cli.Keeping;

/// <summary>A replayed conversation as lines: what came in, what was replied, and whether the same comes out again.</summary>
static class ReplayText
{
    public static string Of(ImmutableArray<TurnBody> history, Replayed replayed)
    {
        var text = new StringBuilder();
        for (var i = 0; i < history.Length; i++)
        {
            var number = i + 1;
            text.Append("turn ").Append(number).Append(": ").AppendLine(replayed.Differing.Contains(number) ? "DIFFERS" : "the same")
                .Append("  in:  ").AppendLine(Encoding.UTF8.GetString(TurnJson.WriteTurn(history[i].Turn)));
            foreach (var reply in history[i].Replies)
                text.Append("  out: ").AppendLine(Encoding.UTF8.GetString(TurnJson.WriteReplies([reply]).AsSpan()[1..^1]));
        }

        return text.Append(history.Length).Append(" turns replayed, ").Append(replayed.Differing.Length).Append(" differ").ToString();
    }
}
