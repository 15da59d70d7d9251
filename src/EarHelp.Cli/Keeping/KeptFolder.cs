using EarHelp.Cli.Commands;

namespace EarHelp.Cli.Keeping;

/// <summary>Where the conversations are.</summary>
static class KeptFolder
{
    /// <exception cref="WrongUseException">There is no such folder.</exception>
    public static string Find(string? named, string? root, Terminal terminal)
    {
        var folder = named is null ? Path.Combine(RootFolder.Find(root, terminal), "data") : Path.GetFullPath(named, terminal.Folder);
        return Directory.Exists(folder) ? folder : throw new WrongUseException($"there is no data folder \"{folder}\". Name it with --data FOLDER.");
    }
}
