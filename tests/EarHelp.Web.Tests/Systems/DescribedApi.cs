using System.Text.Json.Nodes;
using Json.Schema;

namespace EarHelp.Web.Tests.Systems;

/// <summary>The description that the service gives of what systems may read, and whether an answer is as it says.</summary>
sealed class DescribedApi(string json)
{
    readonly JsonNode _document = JsonNode.Parse(json)!;

    /// <summary>What is wrong with an answer; empty: nothing.</summary>
    public IReadOnlyList<string> FaultsOf(string path, int status, string mediaType, string body)
    {
        var response = Resolved(_document["paths"]![path]!["get"]!["responses"]![$"{status}"] ?? throw new InvalidOperationException($"{path} does not say that it answers {status}."));
        var content = response["content"]![mediaType] ?? throw new InvalidOperationException($"{path} does not say that {status} is {mediaType}.");
        var result = SchemaOf(content["schema"]!).Evaluate(JsonNode.Parse(body), new EvaluationOptions { OutputFormat = OutputFormat.List, RequireFormatValidation = true });
        return result.IsValid ? [] : [.. result.Details.Where(d => d.HasErrors).SelectMany(d => d.Errors!.Select(e => $"{d.InstanceLocation}: {e.Value}"))];
    }

    /// <summary>Every path with a parameter that stands in it.</summary>
    public IEnumerable<string> Paths => _document["paths"]!.AsObject().Select(p => p.Key);

    JsonNode Resolved(JsonNode node) => node["$ref"]?.GetValue<string>() is { } reference
        ? reference[2..].Split('/').Aggregate(_document, (at, step) => at[step]!)
        : node;

    /// <summary>In OpenAPI 3.1 a schema is one of JSON Schema 2020-12 (OpenAPI 3.1.1, 4.8.24); its references go to the components.</summary>
    JsonSchema SchemaOf(JsonNode schema) => JsonSchema.FromText(new JsonObject
    {
        ["$schema"] = "https://json-schema.org/draft/2020-12/schema",
        ["$defs"] = Moved(_document["components"]!["schemas"]!),
        ["allOf"] = new JsonArray(Moved(schema)),
    }.ToJsonString());

    static JsonNode Moved(JsonNode node) => JsonNode.Parse(node.ToJsonString().Replace("#/components/schemas/", "#/$defs/", StringComparison.Ordinal))!;
}
