namespace EarHelp.Browser.Running;

/// <summary>Where the repository and its thrown-away files are.</summary>
static class Folders
{
    public static string Root { get; } = FindRoot();

    /// <summary>Pictures of every state, to be looked at by a person.</summary>
    public static string Screens { get; } = Directory.CreateDirectory(Path.Combine(Root, "artifacts", "screens")).FullName;

    static string FindRoot()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "EarHelp.sln")))
            folder = folder.Parent;
        return folder?.FullName ?? throw new InvalidOperationException($"No folder above {AppContext.BaseDirectory} holds EarHelp.sln.");
    }
}
