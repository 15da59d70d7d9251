using System.Text;
using System.Text.Json;

namespace EarHelp.Cli.Keeping;

/// <summary>A replayed conversation as lines: what came in, what was replied, and whether the same comes out again.</summary>
static class ReplayText
{
    /// <param name="turns">As <see cref="Conversation.Taking.Replayed.ToJson"/> writes them, here or in a running service.</param>
    /// <returns>The lines, and how many turns differ.</returns>
    public static (string Text, int Differing) Of(JsonElement turns)
    {
        var text = new StringBuilder();
        var differing = 0;
        foreach (var turn in turns.EnumerateArray())
        {
            var (kept, again) = (turn.GetProperty("out"), turn.GetProperty("again"));
            var isSame = string.Equals(kept.GetRawText(), again.GetRawText(), StringComparison.Ordinal);
            text.Append("turn ").Append(turn.GetProperty("number").GetInt32()).Append(": ").AppendLine(isSame ? "the same" : "DIFFERS")
                .Append("  in:  ").AppendLine(turn.GetProperty("in").GetRawText());
            AppendReplies(text, "  out: ", kept);
            if (isSame)
                continue;
            differing++;
            if (again.ValueKind == JsonValueKind.Null)
                text.AppendLine("  now: none, because its edition or an earlier one is not in the archive");
            else
                AppendReplies(text, "  now: ", again);
        }

        text.Append(turns.GetArrayLength()).Append(" turns replayed, ").Append(differing).Append(" differ");
        return (text.ToString(), differing);
    }

    static void AppendReplies(StringBuilder text, string mark, JsonElement replies)
    {
        foreach (var reply in replies.EnumerateArray())
            text.Append(mark).AppendLine(reply.GetRawText());
    }
}
