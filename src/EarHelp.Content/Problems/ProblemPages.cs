using System.Collections.Immutable;

namespace EarHelp.Content.Problems;

/// <summary>The page of each code: what is wrong, an example, and how it should be.</summary>
public static class ProblemPages
{
    /// <summary>All codes that have a page, in order.</summary>
    public static ImmutableArray<string> Codes { get; } =
    [
        .. typeof(ProblemPages).Assembly.GetManifestResourceNames()
            .Where(n => n.StartsWith("EH", StringComparison.Ordinal) && n.EndsWith(".md", StringComparison.Ordinal))
            .Select(n => n[..^3]).Order(StringComparer.Ordinal),
    ];

    /// <summary>The page in Markdown, or null if there is no such code.</summary>
    public static string? Find(string code)
    {
        using var stream = typeof(ProblemPages).Assembly.GetManifestResourceStream($"{code}.md");
        if (stream is null)
            return null;
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }
}
