using System.Collections.Immutable;
using System.Runtime.CompilerServices;

namespace EarHelp.Architecture.Tests.Reading;

/// <summary>The files of the repository as they lie on the disk.</summary>
static class Repository
{
    static readonly string[] Generated = ["bin", "obj", "node_modules", "artifacts"];

    /// <summary>The nearest folder above the tests that holds the solution.</summary>
    public static string Root { get; } = FindRoot(AppContext.BaseDirectory);

    public static ImmutableArray<ProjectFile> Projects { get; } =
        [.. Files("src", "*.csproj").Concat(Files("tests", "*.csproj")).Select(p => new ProjectFile(Path.Combine(Root, p)))];

    public static ImmutableArray<ProjectFile> ProductProjects { get; } = [.. Projects.Where(p => p.Path.StartsWith("src/", StringComparison.Ordinal))];

    public static ImmutableArray<CodeFile> ProductCode { get; } = [.. Files("src", "*.cs").Select(p => new CodeFile(p))];

    public static ImmutableArray<CodeFile> TestCode { get; } = [.. Files("tests", "*.cs").Select(p => new CodeFile(p))];

    /// <summary>Paths from the root with forward slashes, without what a build or a package manager made.</summary>
    public static IEnumerable<string> Files(string folder, string pattern)
    {
        var start = Path.Combine(Root, folder);
        return Directory.Exists(start)
            ? Directory.EnumerateFiles(start, pattern, SearchOption.AllDirectories)
                .Select(p => Path.GetRelativePath(Root, p).Replace('\\', '/'))
                .Where(p => !p.Split('/').Intersect(Generated).Any())
                .Order(StringComparer.Ordinal)
            : [];
    }

    public static string Read(string path) => File.ReadAllText(Path.Combine(Root, path));

    static string FindRoot(string from, [CallerFilePath] string here = "")
    {
        for (var folder = new DirectoryInfo(from); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "EarHelp.sln")))
                return folder.FullName;
        }

        throw new InvalidOperationException($"No folder above {from} holds EarHelp.sln; these tests were built from {here}.");
    }
}
