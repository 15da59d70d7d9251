namespace EarHelp.Web.Tests.Running;

static class Repository
{
    public static string Root { get; } = Find();

    static string Find()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "EarHelp.sln")))
                return folder.FullName;
        }

        throw new InvalidOperationException($"No folder above {AppContext.BaseDirectory} holds EarHelp.sln.");
    }
}
