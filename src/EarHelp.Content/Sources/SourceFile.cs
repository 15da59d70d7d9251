using System.Text;

namespace EarHelp.Content.Sources;

/// <summary>One Markdown file as it lies on the disk.</summary>
/// <param name="Path">From the root folder, with forward slashes.</param>
public sealed record SourceFile(string Path, ReadOnlyMemory<byte> Bytes)
{
    public static SourceFile Of(string path, string text) => new(path, Encoding.UTF8.GetBytes(text));
}
