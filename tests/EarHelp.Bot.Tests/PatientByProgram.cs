using System.Text.Json;
using System.Text.Json.Nodes;

namespace EarHelp.Bot.Tests;

/// <summary>A program that holds a conversation. It reads typed replies only, never their texts.</summary>
sealed class PatientByProgram(Dictionary<string, string> facts)
{
    const int TooManyTurns = 80;

    /// <param name="send">Sends a value under a turn id and gives the typed replies.</param>
    /// <returns>The replies of every turn, as JSON.</returns>
    public async Task<List<string>> TalkAsync(Func<string, JsonNode, Task<JsonElement[]>> send)
    {
        var told = new List<string>();
        JsonNode value = new JsonObject { ["begin"] = "en" };
        for (var turn = 1; turn < TooManyTurns; turn++)
        {
            var replies = await send($"turn {turn}", value);
            told.AddRange(replies.Select(r => r.GetRawText()));
            if (replies.LastOrDefault(r => Kind(r) == "ask") is { ValueKind: JsonValueKind.Object } ask)
                value = Answer(ask.GetProperty("question"));
            else if (replies.Any(r => Kind(r) == "outcome"))
                return told;
            else
                throw new InvalidOperationException($"Turn {turn} neither asks nor tells: {string.Join('\n', replies)}");
        }

        throw new InvalidOperationException("The conversation does not end.");
    }

    static string? Kind(JsonElement reply) => reply.GetProperty("kind").GetString();

    JsonObject Answer(JsonElement question)
    {
        var isChecklist = question.GetProperty("kind").GetString() == "checklist";
        var chosen = new JsonArray();
        foreach (var fact in question.GetProperty("facts").EnumerateArray())
        {
            var id = fact.GetProperty("fact").GetString()!;
            if (facts.TryGetValue(id, out var value))
                chosen.Add(new JsonObject { ["fact"] = id, ["value"] = value });
            else if (!isChecklist && fact.GetProperty("options").EnumerateArray().Any(o => o.GetProperty("value").GetString() == "no"))
                chosen.Add(new JsonObject { ["fact"] = id, ["value"] = "no" });
            else if (!isChecklist)
                chosen.Add(new JsonObject { ["fact"] = id, ["notSure"] = true });
        }

        return new JsonObject
        {
            ["answers"] = JsonNode.Parse(question.GetProperty("name").GetRawText()),
            ["none"] = isChecklist && chosen.Count == 0,
            ["chosen"] = chosen,
        };
    }
}
