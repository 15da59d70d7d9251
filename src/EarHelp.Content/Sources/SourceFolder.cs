using System.Collections.Immutable;

namespace EarHelp.Content.Sources;

/// <summary>The folder that holds <c>dialogs/</c> and <c>content/</c>.</summary>
public static class SourceFolder
{
    const string Examples = "dialogs/examples/";

    const string Demonstration = "dialogs/demo/";

    static readonly string[] Folders = ["content", "dialogs"];

    // For people, not for patients: they are neither compiled nor part of an edition's hash.
    static readonly string[] NotCompiled = ["README.md", "CHANGES.md", "to-sign.md", "left-out.md"];

    /// <summary>The nearest folder, from <paramref name="start"/> upwards, that holds both; or null.</summary>
    public static string? FindRoot(string start)
    {
        for (var folder = new DirectoryInfo(start); folder is not null; folder = folder.Parent)
        {
            if (IsRoot(folder.FullName))
                return folder.FullName;
        }

        return null;
    }

    public static bool IsRoot(string folder) => Array.TrueForAll(Folders, f => Directory.Exists(Path.Combine(folder, f)));

    /// <summary>All files that make the edition, in the ordinal order of their paths.</summary>
    /// <exception cref="IOException">A file or folder cannot be read.</exception>
    public static ImmutableArray<SourceFile> Read(string root) => Read(root, IsCompiled);

    /// <summary>The files of example patients, in the same order; they are no part of the edition.</summary>
    /// <exception cref="IOException">A file or folder cannot be read.</exception>
    public static ImmutableArray<SourceFile> ReadExamples(string root) => Read(root, IsExamples);

    /// <summary>False for pages that explain, record changes, or hold example patients or the invented week.</summary>
    public static bool IsCompiled(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        return !path.StartsWith(Examples, StringComparison.Ordinal) && !path.StartsWith(Demonstration, StringComparison.Ordinal) && IsWritten(path);
    }

    /// <summary>True for a page of example patients.</summary>
    public static bool IsExamples(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        return path.StartsWith(Examples, StringComparison.Ordinal) && IsWritten(path);
    }

    static bool IsWritten(string path) =>
        path.EndsWith(".md", StringComparison.OrdinalIgnoreCase) && !NotCompiled.Contains(path[(path.LastIndexOf('/') + 1)..], StringComparer.Ordinal);

    static ImmutableArray<SourceFile> Read(string root, Func<string, bool> isMeant)
    {
        var files = ImmutableArray.CreateBuilder<SourceFile>();
        foreach (var folder in Folders.Select(f => Path.Combine(root, f)).Where(Directory.Exists))
        {
            foreach (var file in Directory.EnumerateFiles(folder, "*.md", SearchOption.AllDirectories))
            {
                var path = Path.GetRelativePath(root, file).Replace(Path.DirectorySeparatorChar, '/');
                if (isMeant(path))
                    files.Add(new SourceFile(path, File.ReadAllBytes(file)));
            }
        }

        files.Sort((one, other) => string.CompareOrdinal(one.Path, other.Path));
        return files.ToImmutable();
    }
}
