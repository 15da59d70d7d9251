using System.Collections.Immutable;

namespace EarHelp.Content.Sources;

/// <summary>Finds and reads the folders <c>dialogs</c> and <c>content</c>.</summary>
public static class SourceFolder
{
    // For people, not for patients: they are neither compiled nor part of an edition's hash.
    static readonly string[] NotCompiled = ["README.md", "CHANGES.md", "to-sign.md", "left-out.md"];

    static readonly string[] Folders = ["dialogs", "content"];

    /// <summary>The nearest folder, from the given one upwards, that holds both; null if there is none.</summary>
    public static string? FindRoot(string start)
    {
        for (var folder = new DirectoryInfo(start); folder is not null; folder = folder.Parent)
        {
            if (Directory.Exists(Path.Combine(folder.FullName, "dialogs")) && Directory.Exists(Path.Combine(folder.FullName, "content")))
                return folder.FullName;
        }

        return null;
    }

    /// <summary>All pages that are compiled, in the order of their names.</summary>
    public static ImmutableArray<SourceFile> Read(string root) =>
    [
        .. Folders
            .Select(f => Path.Combine(root, f))
            .Where(Directory.Exists)
            .SelectMany(f => Directory.EnumerateFiles(f, "*.md", SearchOption.AllDirectories))
            .Select(f => (File: f, Name: Path.GetRelativePath(root, f).Replace('\\', '/')))
            .Where(f => IsCompiled(f.Name))
            .OrderBy(f => f.Name, StringComparer.Ordinal)
            .Select(f => new SourceFile(f.Name, File.ReadAllBytes(f.File))),
    ];

    /// <summary>False for pages that explain, record changes or hold example patients.</summary>
    public static bool IsCompiled(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        return !path.StartsWith("dialogs/examples/", StringComparison.Ordinal)
            && !NotCompiled.Contains(path[(path.LastIndexOf('/') + 1)..], StringComparer.Ordinal);
    }
}
