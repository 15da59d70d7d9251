using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace EarHelp.Conversation.Records;

/// <summary>How everything that is kept is written as JSON.</summary>
public static class RecordJson
{
    /// <param name="converters">For what only one kind of record holds.</param>
    public static JsonSerializerOptions Options(params ReadOnlySpan<JsonConverter> converters)
    {
        var options = new JsonSerializerOptions
        {
            PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
            DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
            Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
            RespectNullableAnnotations = true,
            Converters = { new InstantConverter() },
        };
        foreach (var converter in converters)
            options.Converters.Add(converter);
        return options;
    }
}
