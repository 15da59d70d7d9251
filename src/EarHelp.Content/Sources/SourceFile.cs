using System.Collections.Immutable;

namespace EarHelp.Content.Sources;

/// <summary>One Markdown file as it lies on the disk.</summary>
/// <param name="Path">From the root folder, with forward slashes.</param>
public sealed record SourceFile(string Path, ImmutableArray<byte> Bytes)
{
    public static SourceFile Of(string path, string text) => new(path, [.. System.Text.Encoding.UTF8.GetBytes(text)]);

    /// <summary>True for a file whose change changes the edition: not a change list, an example, a README or a list of decisions.</summary>
    public static bool IsCompiled(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        if (!path.EndsWith(".md", StringComparison.OrdinalIgnoreCase) || path.StartsWith("dialogs/examples/", StringComparison.Ordinal))
            return false;
        return path[(path.LastIndexOf('/') + 1)..] is not ("README.md" or "CHANGES.md" or "to-sign.md" or "left-out.md");
    }
}
