using System.Text;
using EarHelp.Conversation.Records;
using EarHelp.Conversation.Replies;
using Newtonsoft.Json;

namespace EarHelp.Web.Bot;

/// <summary>A typed reply on its way as channel data: an object in this process, and outside it JSON in the form in which it is kept.</summary>
[JsonConverter(typeof(AsKept))]
public sealed record TypedReply(Reply Reply)
{
    /// <summary>The reply as JSON.</summary>
    public string ToJson() => Encoding.UTF8.GetString(TurnJson.WriteReplies([Reply]).AsSpan()[1..^1]);

    sealed class AsKept : JsonConverter<TypedReply>
    {
        public override bool CanRead => false;

        public override void WriteJson(JsonWriter writer, TypedReply? value, JsonSerializer serializer) =>
            writer.WriteRawValue(value?.ToJson() ?? "null");

        public override TypedReply ReadJson(
            JsonReader reader, Type objectType, TypedReply? existingValue, bool hasExistingValue, JsonSerializer serializer) =>
            throw new NotSupportedException("A typed reply goes out and never comes in.");
    }
}
