namespace EarHelp.Content.Sources;

/// <summary>One file that an author wrote.</summary>
/// <param name="Path">From the root folder, with forward slashes.</param>
/// <param name="Bytes">As they are on the disk.</param>
public sealed record SourceFile(string Path, ReadOnlyMemory<byte> Bytes);
