namespace Benchmarks.Understanding;

/// <summary>Why each error remains, as written beside the messages: a table of message, error and reason.</summary>
sealed class ErrorReasons(IReadOnlyDictionary<string, string> reasons)
{
    const string None = "no reason written down";

    public static ErrorReasons ReadFile(string path) =>
        new(File.ReadLines(path).Where(l => l.StartsWith("| ", StringComparison.Ordinal)).Select(l => l.Trim('|', ' ').Split(" | "))
            .Where(c => c.Length == 3).ToDictionary(c => $"{c[0]} {c[1]}", c => c[2], StringComparer.Ordinal));

    public string Of(string error) => reasons.GetValueOrDefault(error, None);
}
