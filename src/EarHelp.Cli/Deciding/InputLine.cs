using System.Text.Json;
using EarHelp.Triage.Cells;
using EarHelp.Triage.Tables;

namespace EarHelp.Cli.Deciding;

/// <summary>Reads a line of inputs: an object with a plain value for each condition column.</summary>
public static class InputLine
{
    static readonly JsonDocumentOptions Strict = new() { AllowDuplicateProperties = false };

    /// <returns>The inputs, or what is wrong with the line.</returns>
    public static (IReadOnlyDictionary<string, FeelValue>? Inputs, string? Fault) Read(DecisionTable table, string line)
    {
        ArgumentNullException.ThrowIfNull(table);
        try
        {
            using var document = JsonDocument.Parse(line, Strict);
            if (document.RootElement.ValueKind != JsonValueKind.Object)
                return (null, "This is not one JSON object.");
            var inputs = new Dictionary<string, FeelValue>(StringComparer.Ordinal);
            foreach (var input in document.RootElement.EnumerateObject())
            {
                if (!table.Inputs.Contains(input.Name))
                    return (null, $"\"{input.Name}\" is not a condition column of \"{table.Name}\"; there is {string.Join(", ", table.Inputs)}.");
                if (FeelValue.FromJson(input.Value) is not { } value)
                    return (null, $"\"{input.Name}\" is {input.Value.GetRawText()}, which is not a plain value.");
                inputs[input.Name] = value;
            }

            return (inputs, null);
        }
        catch (JsonException broken)
        {
            return (null, $"This is not one JSON object: {broken.Message}");
        }
    }
}
