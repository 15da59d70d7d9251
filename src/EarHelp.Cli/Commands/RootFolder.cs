using EarHelp.Content.Sources;

namespace EarHelp.Cli.Commands;

/// <summary>Finds the folder that holds <c>dialogs/</c> and <c>content/</c>.</summary>
public static class RootFolder
{
    /// <param name="named">As given with --root, or null: the nearest folder upwards that holds both, else the program's own.</param>
    /// <exception cref="WrongUseException">There is none.</exception>
    public static string Find(string? named, Terminal terminal)
    {
        ArgumentNullException.ThrowIfNull(terminal);
        if (named is null)
        {
            return SourceFolder.FindRoot(terminal.Folder)
                ?? SourceFolder.FindRoot(AppContext.BaseDirectory)
                ?? throw new WrongUseException("no folder from here upwards holds both dialogs/ and content/. Name it with --root FOLDER.");
        }

        var root = Path.GetFullPath(named, terminal.Folder);
        return Directory.Exists(Path.Combine(root, "dialogs")) && Directory.Exists(Path.Combine(root, "content"))
            ? root
            : throw new WrongUseException($"\"{named}\" does not hold both dialogs/ and content/.");
    }
}
