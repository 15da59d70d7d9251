using EarHelp.Conversation.Keeping;
using EarHelp.Storage;

namespace EarHelp.Cli.Keeping;

/// <summary>A store as it is named on the command line: a data folder, or how to reach a database.</summary>
static class NamedStore
{
    public static string FolderOf(string store, Terminal terminal) => Path.GetFullPath(store, terminal.Folder);

    /// <exception cref="StoreFailedException">It cannot be opened.</exception>
    public static IStore Open(string store, Terminal terminal) =>
        StoreOpening.Open(StoreOpening.IsDatabase(store) ? store : FolderOf(store, terminal), new StoreOptions());
}
