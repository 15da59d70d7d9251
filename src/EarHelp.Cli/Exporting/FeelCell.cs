using EarHelp.Triage.Facts;

namespace EarHelp.Cli.Exporting;

/// <summary>A set of values as a FEEL unary test, texts in quotes, so that any evaluator reads it.</summary>
static class FeelCell
{
    public static string Of(ValueSet values, FactValues of) => of switch
    {
        FactValues.Named named => string.Join(", ", Enumerable.Range(0, named.Count).Where(values.Contains).Select(i => Text(named.NameOf(i)))),
        FactValues.Numbers numbers => string.Join(", ", values.Ranges.Select(r => Of(r, numbers))),
        _ => throw new System.Diagnostics.UnreachableException(),
    };

    public static string Text(string text) => $"\"{text.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("\"", "\\\"", StringComparison.Ordinal)}\"";

    static string Of(IndexRange range, FactValues.Numbers numbers) =>
        range.First == range.Last ? numbers.NameOf(range.First)
        : range.First == 0 ? $"<= {numbers.NameOf(range.Last)}"
        : range.Last == numbers.Count - 1 ? $">= {numbers.NameOf(range.First)}"
        : $"[{numbers.NameOf(range.First)}..{numbers.NameOf(range.Last)}]";
}
