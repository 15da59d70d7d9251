using System.Text;
using EarHelp.Conversation.Keeping;

namespace EarHelp.Storage.Tests;

/// <summary>Turns whose content does not matter.</summary>
static class SomeTurns
{
    public static TurnRecord First(string conversation, string turnId = "turn 1", string text = "text", bool finished = false, long at = 1) =>
        TurnRecord.Chain(conversation, 1, turnId, at, "edition", "1", finished, Encoding.UTF8.GetBytes(text), string.Empty);

    public static TurnRecord After(TurnRecord last, string? turnId = null) =>
        TurnRecord.Chain(
            last.Conversation,
            last.Number + 1,
            turnId ?? $"turn {last.Number + 1}",
            last.AtUnixMilliseconds + 1,
            "edition",
            "1",
            false,
            Encoding.UTF8.GetBytes($"text {last.Number + 1}"),
            last.Hash);
}
