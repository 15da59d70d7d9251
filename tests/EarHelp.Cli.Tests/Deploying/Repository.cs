namespace EarHelp.Cli.Tests.Deploying;

/// <summary>The folder this test was built from.</summary>
static class Repository
{
    public static string Root { get; } = Find();

    static string Find()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "EarHelp.sln")))
            folder = folder.Parent;
        return folder?.FullName ?? throw new InvalidOperationException("EarHelp.sln stands in no folder above the tests.");
    }
}
