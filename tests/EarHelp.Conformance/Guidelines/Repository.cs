namespace EarHelp.Conformance.Guidelines;

/// <summary>The files of this repository.</summary>
static class Repository
{
    static readonly string Root = FindRoot();

    public static string PathOf(string path) => Path.Combine(Root, path);

    /// <summary>True if a test class of this name stands anywhere under <c>tests/</c>.</summary>
    public static bool HasTests(string name) => Directory.EnumerateFiles(PathOf("tests"), name + ".cs", SearchOption.AllDirectories).Any();

    static string FindRoot()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder!.FullName, "EarHelp.sln")))
            folder = folder.Parent;
        return folder.FullName;
    }
}
