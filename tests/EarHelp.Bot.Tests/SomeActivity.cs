namespace EarHelp.Bot.Tests;

/// <summary>Activities as a channel would post them.</summary>
static class SomeActivity
{
    public static Dictionary<string, object?> Message(
        string? text, object? value = null, string id = "m1", string conversation = "c1", string serviceUrl = Issuer.ServiceUrl, string deliveryMode = "expectReplies") => new()
        {
            ["type"] = "message",
            ["id"] = id,
            ["channelId"] = "test",
            ["serviceUrl"] = serviceUrl,
            ["from"] = new { id = "person" },
            ["recipient"] = new { id = Issuer.BotId },
            ["conversation"] = new { id = conversation },
            ["deliveryMode"] = deliveryMode,
            ["text"] = text,
            ["value"] = value,
        };
}
